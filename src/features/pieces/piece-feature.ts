import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import type { Db } from '../../platform/db/client.ts';
import { actorOf } from '../../platform/http/actor.ts';
import type { Platform } from '../../platform/platform.ts';
import type { Planning } from '../calculations/index.ts';
import { cautionRoutes } from './cautions.routes.ts';
import { designRoutes } from './designs.routes.ts';
import { createDesignService } from './designs.service.ts';
import { createGuessService } from './guesses.service.ts';
import { heatRoutes } from './heats.routes.ts';
import { createHeatService } from './heats.service.ts';
import { incidentRoutes } from './incidents.routes.ts';
import { createIncidentService } from './incidents.service.ts';
import { createJointService } from './joints.service.ts';
import { holdToKnownRecord } from './known-records.ts';
import { pieceRoutes } from './pieces.routes.ts';
import { createPieceService } from './pieces.service.ts';
import { piecePlanRoutes, planRoutes } from './plans.routes.ts';
import { createPlanService } from './plans.service.ts';

export type PieceFeature = ReturnType<typeof createPieceFeature>;

/** A piece and all that becomes of it at the bench: one life, so one feature. */
export function createPieceFeature(platform: Platform, planning: Planning) {
  return {
    pieces: createPieceService(platform),
    designs: createDesignService(platform),
    joints: createJointService(platform),
    plans: createPlanService(platform, planning),
    guesses: createGuessService(platform),
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
  await api.register(planRoutes, { prefix: '/plans', platform, plans: bench.plans, guesses: bench.guesses });
  await api.register(heatRoutes, { prefix: '/heats', platform, heats: bench.heats });
  await api.register(incidentRoutes, { prefix: '/incidents', platform, incidents: bench.incidents });
  await api.register(cautionRoutes, { prefix: '/cautions' });
};

function holdToKnownPieces(db: Db, request: FastifyRequest): void {
  const { id } = request.params as { id?: string };
  const thing = /^\/api\/v1\/(\w+)s\/:id/.exec(request.routeOptions.url ?? '')?.[1];
  if (id === undefined || thing === undefined) return;
  holdToKnownRecord(db, actorOf(request), { thing, id });
}
