interface Dated {
  deviceId: string;
  deviceSeq: number;
  occurredAt: string;
}

/**
 * The order in which steps are taken up, as places in the list: those of one device by its own count, however its clock went;
 * of several devices, always the step that happened first of those whose turn it is.
 */
export function stepOrder(steps: readonly Dated[]): number[] {
  const queues = new Map<string, number[]>();
  for (const [index, { deviceId }] of steps.entries()) queues.set(deviceId, [...(queues.get(deviceId) ?? []), index]);
  const waiting = [...queues.values()].map((queue) => queue.toSorted((a, b) => steps[a]!.deviceSeq - steps[b]!.deviceSeq));
  const order: number[] = [];
  while (order.length < steps.length) {
    const next = waiting
      .filter((queue) => queue.length > 0)
      .toSorted((a, b) => Date.parse(steps[a[0]!]!.occurredAt) - Date.parse(steps[b[0]!]!.occurredAt) || a[0]! - b[0]!)[0]!;
    order.push(next.shift()!);
  }
  return order;
}
