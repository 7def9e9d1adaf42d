import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import type { Platform } from '../../platform/platform.ts';
import { supplyMovementRoutes, supplyRoutes } from './supplies.routes.ts';
import { createSupplyService } from './supplies.service.ts';
import { createSupplyMovementService } from './supply-movements.service.ts';

type SupplyFeature = ReturnType<typeof createSupplyFeature>;

/** The supplies with their ledger. */
export function createSupplyFeature(platform: Platform) {
  return { supplies: createSupplyService(platform), supplyMovements: createSupplyMovementService(platform) };
}

export const supplyFeatureRoutes: FastifyPluginAsyncZod<{ supply: SupplyFeature; platform: Platform }> = async (
  app,
  { supply: { supplies, supplyMovements }, platform },
) => {
  await app.register(supplyRoutes, { prefix: '/supplies', supplies, platform });
  await app.register(supplyMovementRoutes, { prefix: '/supply-movements', supplyMovements, platform });
};
