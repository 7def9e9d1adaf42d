import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { isCalibrated } from './calibrations.store.ts';
import type { NewTorch, TorchChange } from './torches.schema.ts';
import * as store from './torches.store.ts';

export type TorchService = ReturnType<typeof createTorchService>;

export function createTorchService({ db, clock }: Platform) {
  return {
    add(actor: Actor, torch: z.infer<typeof NewTorch>): store.TorchRow {
      return db.transaction((tx) => {
        holdNameFree(tx, torch.name);
        const by = writtenBy(actor, clock.now());
        const row = store.insertTorch(tx, { ...torch, id: newId(by.at), createdAt: by.at.toISOString() });
        writeJournal(tx, by, { what: 'torch', id: row.id, after: row });
        return row;
      });
    },

    get: (id: string) => getTorch(db, id),

    list: (page: Page) => pageOf(store.listTorches(db, page), page, (row) => row),

    /** Its numbers stand still once somebody has calibrated it: the factors multiply them. */
    change(actor: Actor, id: string, seen: number, { name, torch }: z.infer<typeof TorchChange>): store.TorchRow {
      return db.transaction((tx) => {
        const before = getTorch(tx, id);
        holdToVersion('torch', before.version, seen);
        if (name !== undefined && name !== before.name) holdNameFree(tx, name);
        if (torch !== undefined && JSON.stringify(torch) !== JSON.stringify(before.torch) && isCalibrated(tx, id))
          throw new Problem(
            'condition-not-met',
            `Cannot change the numbers of ${before.name}: it is calibrated on them; add another torch instead`,
          );
        const after = store.updateTorch(tx, id, {
          name: name ?? before.name,
          torch: torch ?? before.torch,
          version: before.version + 1,
        });
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'torch', id, before, after });
        return after;
      });
    },
  };
}

export function getTorch(db: Db, id: string): store.TorchRow {
  const row = store.findTorch(db, id);
  if (!row) throw notFound('torch', id);
  return row;
}

function holdNameFree(db: Db, name: string): void {
  if (store.findTorchByName(db, name))
    throw new Problem('already-used', `Cannot call a torch ${name}: there is one of that name`);
}
