import type { z } from 'zod';
import { designFaults } from '../../../shared/design/design-faults.ts';
import type { Design, Joint } from '../../../shared/design/design.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import type { CadmiumStanding } from '../../../shared/design/solder.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { toDesign } from '../calculations/index.ts';
import { copyErrors, withOwnMetals } from '../metals/index.ts';
import type { DesignBody, DesignReply } from './designs.schema.ts';
import { heatsOf, wasAlight } from './heats.store.ts';
import * as joints from './joints.store.ts';
import { getPiece } from './piece-reads.ts';
import * as store from './pieces.store.ts';

export type DesignService = ReturnType<typeof createDesignService>;

export function createDesignService({ db, clock }: Platform) {
  return {
    get(pieceId: string) {
      getPiece(db, pieceId);
      const row = store.findCurrentDesign(db, pieceId);
      if (!row) throw new Problem('not-found', 'Cannot find a design: this piece has none yet');
      return show(row);
    },

    /** What fences compare with: nothing, while there is no design. */
    stored: (pieceId: string): Design | undefined => store.findCurrentDesign(db, pieceId)?.body,

    /** @param versionSeen asked for only where there is a design already */
    put(actor: Actor, pieceId: string, versionSeen: () => number, { entered, ...body }: z.infer<typeof DesignBody>) {
      return db.transaction((tx) => {
        const piece = getPiece(tx, pieceId);
        const before = store.findCurrentDesign(tx, pieceId);
        if (before) holdToVersion('design', before.number, versionSeen());
        holdStillOpen(tx, piece);
        const { parts, errors: unknown } = withOwnMetals(tx, body.parts, '/parts');
        const design = toDesign({ ...body, parts });
        const kept = new Map(joints.jointsOf(tx, pieceId).map((row) => [row.jointId, row]));
        const errors = [
          ...unknown,
          ...copyErrors(tx, design.parts, before?.body.parts ?? []),
          ...designFaults(design),
          ...cadmiumErrors(design, kept),
        ];
        if (errors.length > 0) throw invalidFields(errors);
        const by = writtenBy(actor, clock.now());
        const row = store.insertDesign(tx, {
          id: newId(by.at),
          pieceId,
          number: (before?.number ?? 0) + 1,
          body: design,
          entered,
          madeBy: actor.personId,
          createdAt: by.at.toISOString(),
        });
        joints.removeJoints(tx, pieceId);
        for (const joint of expandDesign(design).design.joints)
          joints.putJoint(tx, { ...asItComes(joint, kept.get(joint.id)), pieceId });
        writeJournal(tx, by, { what: 'design', id: row.id, before, after: row });
        return show(row);
      });
    },
  };
}

/** After the first flame a design says how the piece is; what is to be made otherwise is another piece. */
function holdStillOpen(tx: Db, piece: store.PieceRow): void {
  if (wasAlight(tx, piece.id)) {
    throw new Problem(
      'condition-not-met',
      `Cannot change the design of ${piece.number}: a heat has been alight, so it is made this way. Plan again, or lay out another piece`,
    );
  }
  const [primed] = heatsOf(tx, piece.id, ['primed']);
  if (primed) {
    throw new Problem(
      'condition-not-met',
      `Cannot change the design of ${piece.number}: H${primed.number} is primed. Take it back to laid out first`,
      { heatId: primed.id },
    );
  }
}

/** Nobody's word makes unknown solder free of cadmium: a document does. */
function cadmiumErrors({ joints: given }: Design, kept: ReadonlyMap<string, joints.JointRow>): FieldError[] {
  return given.flatMap(({ id, made }, index) => {
    if (made?.solder !== 'unknown' || made.cadmiumStanding !== 'no' || kept.get(id)?.cadmiumDocument) return [];
    return [
      {
        pointer: `/joints/${index}/made/cadmiumStanding`,
        detail: `Joint ${id} has unknown solder: its cadmium standing is unknown until a document says no. Leave it unknown and add the document to the joint.`,
        given: 'no',
      },
    ];
  });
}

function asItComes({ id, made }: Joint, kept: joints.JointRow | undefined): Omit<joints.JointRow, 'pieceId'> {
  const none = { jointId: id, heatId: null, solder: null, cadmiumStanding: 'no' as const, cadmiumDocument: null };
  if (!made) return { ...none, state: 'open' };
  const solder = made.solder === 'unknown' ? null : made.solder;
  const stated: CadmiumStanding = made.cadmiumStanding ?? solder?.cadmiumStanding ?? 'unknown';
  const document = kept?.cadmiumDocument ?? null;
  return {
    ...none,
    state: solder === null ? 'doubtful' : 'sound',
    solder,
    cadmiumStanding: document ? kept!.cadmiumStanding : stated,
    cadmiumDocument: document,
  };
}

function show({ id: _id, body, ...row }: store.DesignRow): z.infer<typeof DesignReply> {
  // The stored body passed the schema; its readonly lists are the reply's lists.
  return { ...row, ...(body as unknown as Pick<z.infer<typeof DesignReply>, 'parts' | 'joints' | 'contacts' | 'rules'>) };
}
