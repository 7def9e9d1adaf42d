import type { ChildProcess } from 'node:child_process';
import type { Answered, Load } from './http-client.ts';

export interface Asked extends Answered {
  perSecond: number;
  /** Of this process, which has the server in it, a question. */
  cpuUs: number;
}

/** Lets a client in a process of its own ask the server in this one. */
export function askedBy(client: ChildProcess, load: Load): Promise<Asked> {
  return new Promise((resolve, reject) => {
    const before = process.cpuUsage();
    client.once('exit', reject);
    client.once('message', (answered: Answered) => {
      client.removeAllListeners('exit');
      const { user, system } = process.cpuUsage(before);
      const perSecond = (load.times / answered.elapsedMs) * 1000;
      resolve({ ...answered, perSecond, cpuUs: (user + system) / load.times });
    });
    client.send(load);
  });
}
