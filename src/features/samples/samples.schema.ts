import { z } from 'zod';

/** Whose word opens a sample: nobody's but being there, the one-time code, the owner's; 'none' where this server has none to show. */
export const SampleStart = z
  .enum(['free', 'code', 'owner', 'none'])
  .describe(
    'What the one who asks needs to open one. Before there is an owner: free on the machine itself, else the one-time code. Afterwards the owner’s word.',
  );

export const FirstLook = z.strictObject({
  code: z.string().max(100).optional().describe('The one-time code, from any other machine than the server’s own.'),
});

export const SampleReply = z.object({
  state: z
    .enum(['none', 'making', 'ready', 'failed'])
    .describe('Of this browser’s own sample. Ready: what it asks next is answered from it.'),
  step: z
    .object({ begun: z.number().int(), of: z.number().int(), title: z.string() })
    .nullable()
    .describe('How far the making is: so many of the studio’s stories have begun, the last of them this one.'),
  start: SampleStart,
  signIn: z
    .object({ names: z.array(z.string()), password: z.string() })
    .nullable()
    .describe('To look at it as somebody else, once it is ready.'),
});
