import { randomBytes } from 'node:crypto';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify, { type FastifyBaseLogger, type FastifyInstance } from 'fastify';
import { serializerCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import { learningRoutes } from './features/learning/learning.routes.ts';
import { createLearningService } from './features/learning/learning.service.ts';
import { dueDateRoutes } from './features/reports/due-date.routes.ts';
import { absenceRoutes, benchListRoutes } from './features/studio-days/studio-days.routes.ts';
import { createStudioDayService } from './features/studio-days/studio-days.service.ts';
import { benchRoutes } from './features/bench/bench.routes.ts';
import { createBenchNowService } from './features/bench/bench-now.service.ts';
import { createBenchStepService } from './features/bench/bench-steps.service.ts';
import { bathRoutes } from './features/baths/baths.routes.ts';
import { createBathService } from './features/baths/baths.service.ts';
import { monthLockRoutes } from './features/bench-time/month-locks.routes.ts';
import { createMonthLockService } from './features/bench-time/month-locks.service.ts';
import { benchTimeRoutes } from './features/bench-time/bench-time.routes.ts';
import { createBenchTimeService } from './features/bench-time/bench-time.service.ts';
import { createPlanning, type Planning } from './features/calculations/index.ts';
import { calculationRoutes } from './features/calculations/calculations.routes.ts';
import { materialRoutes } from './features/calculations/materials.routes.ts';
import { clientRoutes } from './features/clients/clients.routes.ts';
import { createClientService } from './features/clients/clients.service.ts';
import { commissionRoutes } from './features/commissions/commissions.routes.ts';
import { createCommissionService } from './features/commissions/commissions.service.ts';
import { documentRoutes } from './features/documents/documents.routes.ts';
import { createDocumentService } from './features/documents/documents.service.ts';
import { drawingCalculationRoutes, pieceDrawingRoutes } from './features/documents/drawings.routes.ts';
import { metalRoutes } from './features/metals/metals.routes.ts';
import { createMetalService } from './features/metals/metals.service.ts';
import { hallmarkPacketRoutes } from './features/hallmarks/hallmark-packets.routes.ts';
import { createHallmarkPacketService } from './features/hallmarks/hallmark-packets.service.ts';
import { pino } from 'pino';
import { createKeysService } from './features/people/keys.service.ts';
import { createPieceFeature, pieceFeatureRoutes } from './features/pieces/piece-feature.ts';
import { sessionRoutes, tokenRoutes } from './features/people/keys.routes.ts';
import { peopleRoutes } from './features/people/people.routes.ts';
import { createPeopleService } from './features/people/people.service.ts';
import { placeRulesRoutes } from './features/place-rules/place-rules.routes.ts';
import { createPlaceRulesService } from './features/place-rules/place-rules.service.ts';
import { createClientPageService } from './features/private-links/client.service.ts';
import { clientPageRoutes } from './features/private-links/client.routes.ts';
import { clientMessageRoutes, privateLinkRoutes } from './features/private-links/private-links.routes.ts';
import { createPrivateLinkService } from './features/private-links/private-links.service.ts';
import { acceptNow } from './features/quotes/accept-now.ts';
import { paymentRoutes } from './features/quotes/payments.routes.ts';
import { createPaymentService } from './features/quotes/payments.service.ts';
import { planSearchRoutes } from './features/plan-searches/plan-searches.routes.ts';
import { createPlanSearchService } from './features/plan-searches/plan-searches.service.ts';
import { estimateRoutes, quoteRoutes } from './features/quotes/quotes.routes.ts';
import { createQuoteService } from './features/quotes/quotes.service.ts';
import { reportRoutes } from './features/reports/reports.routes.ts';
import { createReportService } from './features/reports/reports.service.ts';
import { scrapJarRoutes, scrapReturnRoutes } from './features/scrap/scrap.routes.ts';
import { createScrapService } from './features/scrap/scrap.service.ts';
import { settingsRoutes } from './features/settings/settings.routes.ts';
import { createSettingsService } from './features/settings/settings.service.ts';
import { metalProductRoutes } from './features/stock/metal-products.routes.ts';
import { createMetalProductService } from './features/stock/metal-products.service.ts';
import { createMetalLotService } from './features/stock/metal-lots.service.ts';
import { createMetalMovementService } from './features/stock/metal-movements.service.ts';
import { metalLotRoutes, metalMovementRoutes } from './features/stock/metal.routes.ts';
import { reorderListRoutes } from './features/stock/reorder-list.routes.ts';
import { createReorderListService } from './features/stock/reorder-list.service.ts';
import { solderLotRoutes } from './features/stock/solder-lots.routes.ts';
import { createSolderLotService } from './features/stock/solder-lots.service.ts';
import { solderProductRoutes } from './features/stock/solder-products.routes.ts';
import { createSolderProductService } from './features/stock/solder-products.service.ts';
import { stockMovementRoutes } from './features/stock/stock-movements.routes.ts';
import { createStockMovementService } from './features/stock/stock-movements.service.ts';
import { stockRoutes } from './features/stock/stock.routes.ts';
import { createStockService } from './features/stock/stock.service.ts';
import { stocktakeRoutes } from './features/stock/stocktakes.routes.ts';
import { createStocktakeService } from './features/stock/stocktakes.service.ts';
import { supplierOrderRoutes } from './features/stock/supplier-orders.routes.ts';
import { createSupplierOrderService } from './features/stock/supplier-orders.service.ts';
import { supplierRoutes } from './features/stock/suppliers.routes.ts';
import { createSupplierService } from './features/stock/suppliers.service.ts';
import { journalRoutes } from './features/system/journal.routes.ts';
import { materialsPage } from './features/system/materials-page.ts';
import { rolesPage } from './features/system/roles-page.ts';
import { healthRoutes, problemRoutes } from './features/system/system.routes.ts';
import { calibrationRoutes } from './features/torches/calibrations.routes.ts';
import { createCalibrationService } from './features/torches/calibrations.service.ts';
import { torchRoutes } from './features/torches/torches.routes.ts';
import { createTorchService } from './features/torches/torches.service.ts';
import { holdRoutesToAccessTable } from './platform/http/access.ts';
import { describeApi } from './platform/http/describe-api.ts';
import { handleProblems } from './platform/http/problem-handler.ts';
import { requireSignIn } from './platform/http/sign-in.ts';
import { unreadRequests } from './platform/http/unread-requests.ts';
import { validateRequests } from './platform/http/validate.ts';
import type { Platform } from './platform/platform.ts';

export interface App {
  http: FastifyInstance;
  services: Services;
  /** For making the first owner; counts only while there is none. */
  firstOwnerCode: string;
}

export type Services = ReturnType<typeof createServices>;

/** The one place where services are made. */
function createServices(
  platform: Platform,
  { planning, firstOwnerCode, onFault }: { planning: Planning; firstOwnerCode: string; onFault: (error: unknown) => void },
) {
  const bench = createPieceFeature(platform, planning);
  const benchTimes = createBenchTimeService(platform);
  return {
    keys: createKeysService(platform),
    people: createPeopleService(platform, firstOwnerCode),
    settings: createSettingsService(platform),
    clients: createClientService(platform),
    metals: createMetalService(platform),
    solderProducts: createSolderProductService(platform),
    solderLots: createSolderLotService(platform),
    stockMovements: createStockMovementService(platform),
    stock: createStockService(platform),
    reorderList: createReorderListService(platform),
    baths: createBathService(platform),
    scrap: createScrapService(platform),
    suppliers: createSupplierService(platform),
    stocktakes: createStocktakeService(platform),
    supplierOrders: createSupplierOrderService(platform),
    metalProducts: createMetalProductService(platform),
    metalLots: createMetalLotService(platform),
    metalMovements: createMetalMovementService(platform),
    reports: createReportService(platform),
    torches: createTorchService(platform),
    calibrations: createCalibrationService(platform, planning),
    bench,
    planSearches: createPlanSearchService(platform, { planning, plans: bench.plans, onFault }),
    benchTimes,
    learning: createLearningService(platform),
    studioDays: createStudioDayService(platform),
    monthLocks: createMonthLockService(platform),
    benchNow: createBenchNowService(platform, { heats: bench.heats, benchTimes }),
    benchSteps: createBenchStepService(platform, { pieces: bench, benchTimes }),
    commissions: createCommissionService(platform, acceptNow),
    quotes: createQuoteService(platform),
    payments: createPaymentService(platform),
    documents: createDocumentService(platform),
    links: createPrivateLinkService(platform),
    client: createClientPageService(platform),
    placeRules: createPlaceRulesService(platform),
    packets: createHallmarkPacketService(platform),
  };
}

/** The one place where routes are registered. */
export async function buildApp(platform: Platform, { logLevel = 'warn' }: { logLevel?: string } = {}): Promise<App> {
  const firstOwnerCode = randomBytes(9).toString('base64url');
  const planning = createPlanning();
  const log: FastifyBaseLogger = pino({ level: logLevel, redact: ['req.headers.authorization', 'req.headers.cookie'] });
  const onFault = (error: unknown) => log.error({ err: error }, 'unexpected error in a search');
  const services = createServices(platform, { planning, firstOwnerCode, onFault });
  const http = Fastify({
    loggerInstance: log,
    bodyLimit: 1024 * 1024,
    trustProxy: false,
    ...unreadRequests,
  }).withTypeProvider<ZodTypeProvider>();

  http.addHook('onReady', async () => services.planSearches.noteInterrupted());
  // What computes for long answers with what it has, so that the last requests end soon.
  http.addHook('preClose', async () => {
    services.planSearches.interruptAll();
    planning.endAll();
  });
  http.addHook('onClose', async () => planning.close());

  // JSON alone is taken; a merge patch (RFC 7396) is JSON under a name of its own.
  http.removeContentTypeParser('text/plain');
  http.addContentTypeParser('application/merge-patch+json', { parseAs: 'string' }, http.getDefaultJsonParser('error', 'error'));
  http.setSerializerCompiler(serializerCompiler);
  handleProblems(http);
  holdRoutesToAccessTable(http);
  // It speaks plain HTTP on the studio's own network: told to insist on TLS, browsers would find nothing there.
  await http.register(helmet, {
    strictTransportSecurity: false,
    contentSecurityPolicy: { directives: { upgradeInsecureRequests: null } },
  });
  await http.register(cookie);
  await http.register(rateLimit, { global: false });
  requireSignIn(http, services.keys);
  validateRequests(http);
  await describeApi(http);
  await http.register(rolesPage);
  // Addresses of private links hold their secret: no line of the log is to have them.
  await http.register(clientPageRoutes, { prefix: '/link', logLevel: 'warn', client: services.client });
  await http.register(materialsPage);
  await http.register(
    async (api) => {
      await api.register(healthRoutes, { prefix: '/health', platform, ownerMissing: services.people.ownerMissing });
      await api.register(calculationRoutes, { prefix: '/calculations', platform, planning });
      await api.register(materialRoutes);
      await api.register(metalRoutes, { prefix: '/metals', metals: services.metals });
      await api.register(problemRoutes, { prefix: '/problems' });
      await api.register(journalRoutes, { prefix: '/journal', platform });
      await api.register(peopleRoutes, { prefix: '/people', people: services.people });
      await api.register(sessionRoutes, { prefix: '/sessions', keys: services.keys });
      await api.register(tokenRoutes, { prefix: '/tokens', keys: services.keys });
      await api.register(clientRoutes, { prefix: '/clients', clients: services.clients });
      await api.register(torchRoutes, { prefix: '/torches', torches: services.torches });
      await api.register(calibrationRoutes, { prefix: '/calibrations', calibrations: services.calibrations, platform });
      await api.register(pieceFeatureRoutes, { platform, bench: services.bench });
      await api.register(planSearchRoutes, { prefix: '/plan-searches', planSearches: services.planSearches, platform });
      await api.register(learningRoutes, { prefix: '/learned-factors', learning: services.learning, platform });
      await api.register(benchListRoutes, { prefix: '/benches', studioDays: services.studioDays });
      await api.register(absenceRoutes, { prefix: '/absences', studioDays: services.studioDays });
      await api.register(dueDateRoutes, { prefix: '/due-dates', platform });
      await api.register(monthLockRoutes, { prefix: '/month-locks', monthLocks: services.monthLocks, platform });
      await api.register(benchRoutes, { prefix: '/bench', benchNow: services.benchNow, benchSteps: services.benchSteps });
      await api.register(benchTimeRoutes, { prefix: '/bench-times', benchTimes: services.benchTimes, platform });
      await api.register(commissionRoutes, { prefix: '/commissions', commissions: services.commissions, platform });
      await api.register(estimateRoutes, { prefix: '/estimates', quotes: services.quotes, platform });
      await api.register(quoteRoutes, { prefix: '/quotes', quotes: services.quotes, platform });
      await api.register(documentRoutes, { prefix: '/documents', documents: services.documents });
      await api.register(privateLinkRoutes, { prefix: '/private-links', links: services.links, platform });
      await api.register(clientMessageRoutes, { prefix: '/client-messages', links: services.links });
      await api.register(pieceDrawingRoutes, { prefix: '/pieces', platform });
      await api.register(drawingCalculationRoutes, { prefix: '/calculations', platform });
      await api.register(paymentRoutes, { prefix: '/payments', payments: services.payments, platform });
      await api.register(placeRulesRoutes, { prefix: '/place-rules', placeRules: services.placeRules });
      await api.register(hallmarkPacketRoutes, { prefix: '/hallmark-packets', packets: services.packets, platform });
      await api.register(settingsRoutes, { prefix: '/settings', settings: services.settings });
      await api.register(solderProductRoutes, { prefix: '/solder-products', solderProducts: services.solderProducts, platform });
      await api.register(solderLotRoutes, { prefix: '/solder-lots', solderLots: services.solderLots, platform });
      await api.register(stockMovementRoutes, { prefix: '/stock-movements', stockMovements: services.stockMovements, platform });
      await api.register(stockRoutes, { prefix: '/stock', stock: services.stock });
      await api.register(reorderListRoutes, { prefix: '/reorder-list', reorderList: services.reorderList });
      await api.register(scrapJarRoutes, { prefix: '/scrap-jars', scrap: services.scrap });
      await api.register(scrapReturnRoutes, { prefix: '/scrap-returns', scrap: services.scrap, platform });
      await api.register(bathRoutes, { prefix: '/pickle-baths', baths: services.baths, platform });
      await api.register(stocktakeRoutes, { prefix: '/stocktakes', stocktakes: services.stocktakes, platform });
      await api.register(supplierRoutes, { prefix: '/suppliers', suppliers: services.suppliers });
      await api.register(supplierOrderRoutes, { prefix: '/supplier-orders', supplierOrders: services.supplierOrders, platform });
      await api.register(metalProductRoutes, { prefix: '/metal-products', metalProducts: services.metalProducts, platform });
      await api.register(metalLotRoutes, { prefix: '/metal-lots', metalLots: services.metalLots, platform });
      await api.register(metalMovementRoutes, { prefix: '/metal-movements', metalMovements: services.metalMovements, platform });
      await api.register(reportRoutes, { prefix: '/reports', reports: services.reports });
    },
    { prefix: '/api/v1' },
  );
  return { http, services, firstOwnerCode };
}
