import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import type { Db } from '../../platform/db/client.ts';
import { actorOf } from '../../platform/http/actor.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import type { Planning } from '../calculations/index.ts';
import { cautionRoutes } from './cautions.routes.ts';
import { designRoutes } from './designs.routes.ts';
import { createDesignService } from './designs.service.ts';
import { heatRoutes } from './heats.routes.ts';
import { createHeatService } from './heats.service.ts';
import { findHeat } from './heats.store.ts';
import { incidentRoutes } from './incidents.routes.ts';
import { createIncidentService } from './incidents.service.ts';
import { findIncident } from './incidents.store.ts';
import { createJointService } from './joints.service.ts';
import { knowsPiece } from './known-pieces.ts';
import { pieceRoutes } from './pieces.routes.ts';
import { createPieceService } from './pieces.service.ts';
import { piecePlanRoutes, planRoutes } from './plans.routes.ts';
import { createPlanService } from './plans.service.ts';
import { findPlan } from './plans.store.ts';

export type PieceFeature = ReturnType<typeof createPieceFeature>;

/** A piece and all that becomes of it at the bench: one life, so one feature. */
export function createPieceFeature(platform: Platform, planning: Planning) {
  return {
    pieces: createPieceService(platform),
    designs: createDesignService(platform),
    joints: createJointService(platform),
    plans: createPlanService(platform, planning),
    heats: createHeatService(platform),
    incidents: createIncidentService(platform),
  };
}

export const pieceFeatureRoutes: FastifyPluginAsync<{ platform: Platform; bench: PieceFeature }> = async (
  api,
  { platform, bench },
) => {
  api.addHook('preHandler', async (request) => holdToKnownPieces(platform.db, request));
  await api.register(pieceRoutes, { prefix: '/pieces', platform, ...bench });
  await api.register(designRoutes, { prefix: '/pieces', designs: bench.designs });
  await api.register(piecePlanRoutes, { prefix: '/pieces', platform, plans: bench.plans });
  await api.register(planRoutes, { prefix: '/plans', platform, plans: bench.plans });
  await api.register(heatRoutes, { prefix: '/heats', platform, heats: bench.heats });
  await api.register(incidentRoutes, { prefix: '/incidents', platform, incidents: bench.incidents });
  await api.register(cautionRoutes, { prefix: '/cautions' });
};

/** The piece that each kind of record is of, by the record's id. */
const PIECE_OF: Readonly<Record<string, (db: Db, id: string) => string | undefined>> = {
  piece: (_db, id) => id,
  plan: (db, id) => findPlan(db, id)?.pieceId,
  heat: (db, id) => findHeat(db, id)?.pieceId,
  incident: (db, id) => findIncident(db, id)?.pieceId,
};

function holdToKnownPieces(db: Db, request: FastifyRequest): void {
  const { id } = request.params as { id?: string };
  const thing = /^\/api\/v1\/(\w+)s\/:id/.exec(request.routeOptions.url ?? '')?.[1];
  if (id === undefined || thing === undefined) return;
  const pieceId = PIECE_OF[thing]?.(db, id);
  if (pieceId !== undefined && !knowsPiece(db, actorOf(request), pieceId)) throw notFound(thing, id);
}
