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
  /** With the move back to sound: somebody has looked at it and it is good. */
  lookedAt: z.boolean().optional(),
  /** With the move from moved to open. */
  cleanedAndRefitted: z.boolean().optional(),
});

/** What settles whether solder of unknown origin holds cadmium; a bench test never does. */
export const CadmiumFinding = NewCadmiumDocument.extend({
  finding: z.enum(['no', 'yes']).describe('Whether there is cadmium in it.'),
});

export const JointReply = z.object({
  joint: z.string(),
  state: JointState,
  /** The heat that made it; null for one that came with the piece, or is yet to be made. */
  heatId: z.string().nullable(),
  /** The solder really in or on it; null: none, or unknown. */
  solder: z.object({ id: z.string(), solidusC: z.number(), liquidusC: z.number() }).nullable(),
  cadmiumStanding: CadmiumStanding,
  cadmiumDocument: CadmiumDocumentReply.nullable(),
  allowedMoves: z.array(z.string()),
});

export const HistoryReply = z.object({
  joint: z.string(),
  heatId: z.string(),
  /** As people know it: H3. */
  heat: z.string(),
  solder: z.string(),
  solderName: z.string(),
  lot: z.string(),
  solidusC: z.number(),
  liquidusC: z.number(),
  usedG: z.number(),
  outcome: z.enum(['sound', 'spoilt']),
  at: z.string(),
});
