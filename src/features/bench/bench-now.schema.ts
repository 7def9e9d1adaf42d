import { z } from 'zod';
import { BenchTimeReply, CurrentReply } from '../bench-time/index.ts';
import { HeatReply } from '../pieces/index.ts';

export const BenchNowQuery = z.strictObject({
  heatId: z.uuid().optional().describe('This heat, in place of the one that is next for the person asking.'),
});

const choice = z.object({
  heatId: z.string(),
  number: z.string(),
  pieceId: z.string(),
  pieceNumber: z.string(),
  title: z.string(),
  dueOn: z.string().nullable(),
  state: HeatReply.shape.state,
});

const heatNow = HeatReply.extend({
  piece: z.object({ id: z.string(), number: z.string(), title: z.string(), state: z.string() }),
  says: z.string().describe('The heat in one sentence.'),
  nextStep: z
    .object({ to: HeatReply.shape.state, says: z.string() })
    .nullable()
    .describe('What is to be done now; null: nothing.'),
  peak: z
    .object({ peakC: z.number(), peakF: z.number(), colour: z.string(), colourSource: z.string() })
    .nullable()
    .describe('To which the joint is brought, and the colour it glows in.'),
  lots: z
    .array(
      z.object({
        id: z.string(),
        number: z.string(),
        markOnMetal: z.string().nullable(),
        onHandG: z.number(),
        isEnough: z.boolean(),
      }),
    )
    .describe('From which the solder may be taken, the oldest first.'),
  flux: HeatReply.shape.flux.extend({ says: z.string() }),
  flameSays: z.string(),
  toPlace: z.array(z.object({ says: z.string(), iron: z.boolean(), removeBefore: z.enum(['pickle', 'nothing']) })),
  margins: z
    .array(z.object({ joint: z.string(), solid: z.string(), run: z.string(), verdict: z.string(), says: z.string() }))
    .describe('Of each earlier joint in the fire, both margins in words.'),
  danger: z
    .object({
      cadmium: z.array(z.object({ joint: z.string(), standing: z.string() })),
      unknownSolder: z.array(z.string()),
      vents: z.array(z.object({ part: z.string(), ventMm: z.number() })),
      limits: z.array(z.object({ part: z.string(), maxC: z.number(), peakC: z.number().nullable() })),
      ironOn: z.boolean(),
      quench: z.enum(['air', 'water']),
      tutorsYes: z.boolean().describe('A tutor has said yes to this heat for the person asking, or they need none.'),
      blocked: z.array(z.string()).describe('Why it is not to be lit, in sentences; empty: nothing known stands against it.'),
    })
    .describe('To be kept on the device: what is dangerous not to know when there is no network.'),
});

export const BenchNowReply = z.object({
  asOf: z.string(),
  running: BenchTimeReply.nullable().describe('The timer that runs.'),
  inDoubt: CurrentReply.shape.inDoubt,
  heat: heatNow.nullable().describe('The next heat of this person; null: choose one, or there is none.'),
  choices: z
    .array(choice)
    .describe('Heats that could be next, and those that were spoilt and are to be planned anew, earliest due first.'),
  deferral: z.string(),
});
export type BenchNow = z.infer<typeof BenchNowReply>;
export type HeatNow = z.infer<typeof heatNow>;
