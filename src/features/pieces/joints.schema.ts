import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { CadmiumDocumentReply, NewCadmiumDocument } from '../stock/index.ts';

export const JointParams = z.strictObject({ id: z.uuid(), jointId: z.string().min(1).max(80) });

const JointState = z.enum(LIFECYCLES.joint.states);
const CadmiumStanding = z.enum(['no', 'yes', 'unknown']);

export const JointMove = z.strictObject({
  ...moveFields,
  to: JointState,
  lookedAt: z.boolean().optional().describe('With the move back to sound: somebody has looked at it and it is good.'),
  cleanedAndRefitted: z.boolean().optional().describe('With the move from moved to open.'),
});

/** What settles whether solder of unknown origin holds cadmium; a bench test never does. */
export const CadmiumFinding = NewCadmiumDocument.extend({
  finding: z.enum(['no', 'yes']).describe('Whether there is cadmium in it.'),
});

export const JointReply = z.object({
  joint: z.string(),
  state: JointState,
  heatId: z.string().nullable().describe('The heat that made it; null for one that came with the piece, or is yet to be made.'),
  solder: z
    .object({ id: z.string(), solidusC: z.number(), liquidusC: z.number() })
    .nullable()
    .describe('The solder really in or on it; null: none, or unknown.'),
  cadmiumStanding: CadmiumStanding,
  cadmiumDocument: CadmiumDocumentReply.nullable(),
  allowedMoves: z.array(z.string()),
});

export const HistoryReply = z.object({
  joint: z.string(),
  heatId: z.string(),
  heat: z.string().describe('As people know it: H3.'),
  solder: z.string(),
  solderName: z.string(),
  lot: z.string(),
  solidusC: z.number(),
  liquidusC: z.number(),
  usedG: z.number(),
  outcome: z.enum(['sound', 'spoilt']),
  at: z.string(),
});
