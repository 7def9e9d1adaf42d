import { THE_STUDIOS } from './whose-studio.ts';

/**
 * Whose things each route is about, written down a second time, apart from the services that see to it: a route of the document that is
 * not here, or here twice, fails a test, and so does one that answers otherwise.
 */
export const WHOSE = {
  /** It takes nothing that is kept: what is typed in is computed, and what it tells is told to all. */
  'nobody’s': [
    'GET /health',
    'GET /openapi.json',
    'GET /problems/:slug',
    'POST /people/first-owner',
    'POST /people/owner-resets',
    'POST /samples',
    'POST /samples/first-look',
    'POST /sessions',
    'POST /calculations/plan-check',
    'POST /calculations/plan-search',
    'POST /calculations/plan-what-if',
    'POST /calculations/piece-weight',
    'POST /calculations/solder-use',
    'POST /calculations/estimate',
    'POST /calculations/hourly-rates',
    'POST /calculations/ring-blank',
    'POST /calculations/reorder-point',
    'POST /calculations/unit-conversion',
    'POST /calculations/torch-calibration',
    'POST /calculations/drawing',
    'GET /solder-grades',
    'GET /cautions',
    'GET /imports',
    'GET /place-rules/published',
  ],
  /** Of the browser or the tablet that asks. */
  'the device’s': [
    'GET /samples/current',
    'DELETE /samples/current',
    'GET /shared-tablets/current',
    'POST /shared-tablets/current/unlocks',
    'POST /shared-tablets/current/pins',
    'POST /shared-tablets/current/touches',
  ],
  /** Nobody else's, the owner's neither. */
  'one’s own': [
    'GET /preferences',
    'PUT /preferences',
    'GET /sessions/current',
    'DELETE /sessions/current',
    'POST /pins',
    'POST /bench-times',
    'GET /bench-times/current',
    'POST /calibrations',
  ],
  /** Anybody's for the owner alone; for everybody else there are their own alone. */
  'one’s own, the owner everybody’s': [
    'POST /tokens',
    'GET /tokens',
    'DELETE /tokens/:id',
    'GET /sessions',
    'DELETE /sessions/:id',
    'DELETE /pins/:id',
    'GET /bench-times',
    'GET /bench-times/days',
    'GET /bench-times/:id',
    'PATCH /bench-times/:id',
    'POST /bench-times/:id/corrections',
    'POST /bench-times/:id/moves',
  ],
  /** Who only learns sees their own; who works at the bench sees everybody's. */
  'one’s own, the bench everybody’s': ['GET /calibrations', 'GET /calibrations/:id'],
  /** Of a piece, as the piece; of a design of no piece one's own, the owner everybody's. */
  'of a piece, or one’s own': [
    'POST /plan-searches',
    'GET /plan-searches',
    'GET /plan-searches/:id',
    'GET /plan-searches/:id/events',
    'POST /plan-searches/:id/moves',
    'POST /plan-searches/:id/plans',
  ],
  /** Everybody's who works here; for who only learns there are practice pieces alone, with all that hangs on them. */
  'practice pieces for who learns': [
    'GET /search',
    'GET /commissions',
    'GET /commissions/:id',
    'POST /commissions/:id/moves',
    'GET /pieces',
    'GET /pieces/:id',
    'POST /pieces/:id/moves',
    'GET /pieces/:id/design',
    'GET /pieces/:id/drawing',
    'POST /pieces/:id/joints/:jointId/moves',
    'POST /pieces/:id/plans',
    'GET /pieces/:id/plans',
    'GET /plans/:id',
    'PUT /plans/:id',
    'POST /plans/:id/check',
    'POST /plans/:id/what-if',
    'POST /plans/:id/moves',
    'GET /plans/:id/guesses',
    'GET /heats',
    'GET /heats/:id',
    'POST /heats/:id/moves',
    'POST /heats/:id/sightings',
    'POST /incidents',
    'GET /incidents',
    'GET /incidents/:id',
    'POST /photos',
    'GET /photos',
    'GET /photos/:id',
    'GET /photos/:id/file',
    'GET /labels/pieces/:id',
    'GET /documents/student-sheets/:id',
    'GET /bench/now',
    'POST /bench/steps',
  ],
  /** Whoever works here is shown the answer at once. */
  'for who learns, of practice pieces': ['POST /plans/:id/guesses'],
  /** As practice pieces; who may see it and did not add it is refused, but for the owner and the desk. */
  'who added it, owner or desk': ['PATCH /photos/:id'],
  'who added it, or the owner': ['DELETE /photos/:id'],
  /** Anybody's who works here. */
  'the studio’s': THE_STUDIOS,
  /** Once it is explained, closed by the bench hand who saw it, by any where a student did, and by the owner. */
  'who saw it, or the owner': ['PATCH /incidents/:id', 'POST /incidents/:id/moves'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type Whose = keyof typeof WHOSE;

/**
 * What else than the path names a thing that somebody may not know of, in routes about more than the studio's that are open to who only
 * learns: members of the body and of the query.
 */
export const NAMED: Readonly<Record<string, readonly string[]>> = {
  'POST /tokens': ['personId'],
  'GET /pieces': ['commissionId'],
  'GET /heats': ['pieceId', 'planId'],
  'POST /incidents': ['pieceId', 'heatId'],
  'GET /incidents': ['pieceId'],
  'POST /photos': ['pieceId', 'commissionId', 'heatId', 'incidentId'],
  'GET /photos': ['commissionId', 'pieceId', 'heatId', 'incidentId'],
  'POST /plan-searches': ['pieceId'],
  'GET /plan-searches': ['pieceId'],
  'POST /bench-times': ['pieceId', 'heatId'],
  'GET /bench-times': ['personId', 'pieceId'],
  'GET /bench-times/days': ['personId'],
  'GET /bench/now': ['heatId'],
  'GET /labels/pieces/:id': ['also'],
  'POST /calibrations': ['heatIds'],
  'GET /calibrations': ['personId'],
};
