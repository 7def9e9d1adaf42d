import { CLEARED, readiness } from './at-the-bench.ts';
import type { Person } from './start-app.ts';

export interface StepAnswer {
  key: string;
  status: number;
  result: Record<string, unknown> | null;
  problem: {
    type: string;
    detail: string;
    state?: string;
    errors?: { pointer: string }[];
    missing?: string[];
    [more: string]: unknown;
  } | null;
}

export interface DeviceStep {
  key: string;
  deviceId: string;
  deviceSeq: number;
  occurredAt: string;
  [more: string]: unknown;
}

/** A device that notes steps, counting on, each at a time of its own. */
export function aDevice(deviceId: string) {
  let deviceSeq = 0;
  return (occurredAt: string, given: Record<string, unknown>): DeviceStep => {
    deviceSeq += 1;
    return { key: `${deviceId}-step-${deviceSeq}`, deviceId, deviceSeq, occurredAt, ...given };
  };
}

export async function sendSteps(person: Person, steps: readonly object[], sentAt: Date | string): Promise<StepAnswer[]> {
  const at = typeof sentAt === 'string' ? sentAt : sentAt.toISOString();
  return (await person.post('/bench/steps', { sentAt: at, steps }).expect(200)).body.answers as StepAnswer[];
}

/** A whole heat that goes well, in the steps of a device, one at each of six times. */
export async function heatInSteps(
  person: Person,
  step: ReturnType<typeof aDevice>,
  { heatId, lots, times }: { heatId: string; lots: Record<string, string>; times: readonly string[] },
): Promise<DeviceStep[]> {
  const moves = [
    await readiness(person, heatId, lots),
    { from: 'primed', to: 'alight' },
    { from: 'alight', to: 'cooling', seen: 'ran bright' },
    { from: 'cooling', to: 'in_pickle', blackHeat: true, ironOff: true },
    { from: 'in_pickle', to: 'looking' },
    CLEARED,
  ];
  return moves.map((move, index) => step(times[index]!, { do: 'move_heat', heatId, ...move }));
}
