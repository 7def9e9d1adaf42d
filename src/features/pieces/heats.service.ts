import type { z } from 'zod';
import { worksHere, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf } from '../../platform/http/paging.ts';
import type { Platform } from '../../platform/platform.ts';
import type { TutorsYes } from './guesses.schema.ts';
import { getHeat } from './heat-context.ts';
import { moveHeat } from './heat-moves.ts';
import { heatShower, showHeat } from './heat-reply.ts';
import type { HeatMove, HeatQuerySchema, HeatSighting } from './heats.schema.ts';
import * as store from './heats.store.ts';
import { seeInHeat } from './see-in-heat.ts';
import { sayTutorsYes } from './tutors-yes.ts';

export type HeatService = ReturnType<typeof createHeatService>;

export function createHeatService({ db, clock }: Platform) {
  return {
    get: (actor: Actor, id: string) => showHeat(db, actor, getHeat(db, id).row, clock.now()),

    list: (actor: Actor, query: z.infer<typeof HeatQuerySchema>) =>
      pageOf(store.listHeats(db, { ...query, practiceOnly: !worksHere(actor) }), query, heatShower(db, actor, clock.now())),

    /** A tutor's yes to this heat for one student, or its taking back. */
    sayTutorsYes(actor: Actor, id: string, sent: z.infer<typeof TutorsYes>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const heat = getHeat(tx, id);
        sayTutorsYes(tx, { actor, by, heat }, sent);
        return showHeat(tx, actor, heat.row, by.at);
      });
    },

    /** What somebody sees while the flame burns, by one tap. */
    see(actor: Actor, id: string, sent: z.infer<typeof HeatSighting>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now(), sent.deviceId);
        return showHeat(tx, actor, seeInHeat(tx, by, getHeat(tx, id), sent), by.at);
      });
    },

    /** One step at the bench. Heat, joints, piece, lot, hold, incident and journal move together or not at all. */
    move(actor: Actor, id: string, sent: z.infer<typeof HeatMove>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now(), sent.deviceId);
        const after = moveHeat(tx, { actor, by, heat: getHeat(tx, id), sent });
        return showHeat(tx, actor, after, by.at);
      });
    },
  };
}
