import type { z } from 'zod';
import type { Actor, WrittenBy } from '../../platform/http/actor.ts';
import type { HeatContext } from './heat-context.ts';
import type { HeatMove } from './heats.schema.ts';

/** A move of a heat, as it was asked for and by whom. */
export interface HeatMoveAsked {
  actor: Actor;
  by: WrittenBy;
  heat: HeatContext;
  sent: z.infer<typeof HeatMove>;
}
