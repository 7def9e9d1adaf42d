import { randomBytes } from 'node:crypto';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify, { type FastifyBaseLogger, type FastifyInstance } from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { learningRoutes } from './features/learning/learning.routes.ts';
import { clientLetterRoutes } from './features/client-letters/client-letters.routes.ts';
import { dueDateRoutes } from './features/reports/due-date.routes.ts';
import { absenceRoutes, benchListRoutes } from './features/studio-days/studio-days.routes.ts';
import { benchRoutes } from './features/bench/bench.routes.ts';
import { backupRoutes } from './features/backups/backups.routes.ts';
import { bathRoutes, dipRoutes } from './features/baths/baths.routes.ts';
import { monthLockRoutes } from './features/bench-time/month-locks.routes.ts';
import { benchTimeRoutes } from './features/bench-time/bench-time.routes.ts';
import { createPlanning } from './features/calculations/index.ts';
import { calculationRoutes } from './features/calculations/calculations.routes.ts';
import { materialRoutes } from './features/calculations/materials.routes.ts';
import { clientLookRoutes, clientRightsRoutes } from './features/client-rights/client-rights.routes.ts';
import { noteLooks } from './features/client-rights/note-looks.ts';
import { clientRoutes } from './features/clients/clients.routes.ts';
import { commissionRoutes } from './features/commissions/commissions.routes.ts';
import { benchSheetRoutes } from './features/documents/bench-sheets.routes.ts';
import { documentRoutes } from './features/documents/documents.routes.ts';
import { exportRoutes } from './features/exports/exports.routes.ts';
import { importRoutes, listExportRoutes } from './features/imports/imports.routes.ts';
import { labelRoutes } from './features/labels/labels.routes.ts';
import { drawingCalculationRoutes, pieceDrawingRoutes } from './features/documents/drawings.routes.ts';
import { firstStepRoutes } from './features/first-steps/first-steps.routes.ts';
import { metalRoutes } from './features/metals/metals.routes.ts';
import { hallmarkPacketRoutes } from './features/hallmarks/hallmark-packets.routes.ts';
import { pino } from 'pino';
import { photoRoutes } from './features/photos/photos.routes.ts';
import { pieceFeatureRoutes } from './features/pieces/piece-feature.ts';
import { otherSessionRoutes, sessionRoutes, tokenRoutes } from './features/people/keys.routes.ts';
import { pinRoutes, tabletRoutes } from './features/people/tablets.routes.ts';
import { peopleRoutes } from './features/people/people.routes.ts';
import { preferencesRoutes } from './features/preferences/preferences.routes.ts';
import { chooseBook } from './features/samples/choose-book.ts';
import { sampleRoutes } from './features/samples/samples.routes.ts';
import type { SampleStudio } from './features/samples/samples.service.ts';
import { searchRoutes } from './features/search/search.routes.ts';
import { placeRulesRoutes } from './features/place-rules/place-rules.routes.ts';
import { clientPageRoutes } from './features/private-links/client.routes.ts';
import { clientMessageRoutes, privateLinkRoutes } from './features/private-links/private-links.routes.ts';
import { paymentRoutes } from './features/quotes/payments.routes.ts';
import { planSearchRoutes } from './features/plan-searches/plan-searches.routes.ts';
import { estimateRoutes, quoteRoutes } from './features/quotes/quotes.routes.ts';
import { reportRoutes } from './features/reports/reports.routes.ts';
import { scrapJarRoutes, scrapReturnRoutes } from './features/scrap/scrap.routes.ts';
import { settingsRoutes } from './features/settings/settings.routes.ts';
import { metalProductRoutes } from './features/stock/metal-products.routes.ts';
import { metalLotRoutes, metalMovementRoutes } from './features/stock/metal.routes.ts';
import { reorderListRoutes } from './features/stock/reorder-list.routes.ts';
import { solderLotRoutes } from './features/stock/solder-lots.routes.ts';
import { safetySheetRoutes } from './features/stock/safety-sheets.routes.ts';
import { solderProductRoutes } from './features/stock/solder-products.routes.ts';
import { stockMovementRoutes } from './features/stock/stock-movements.routes.ts';
import { stockRoutes } from './features/stock/stock.routes.ts';
import { stocktakeRoutes } from './features/stock/stocktakes.routes.ts';
import { supplierOrderRoutes } from './features/stock/supplier-orders.routes.ts';
import { supplierRoutes } from './features/stock/suppliers.routes.ts';
import { journalRoutes } from './features/system/journal.routes.ts';
import { materialsPage } from './features/system/materials-page.ts';
import { tabletPage, type TrustedAuthority } from './features/system/tablet-page.ts';
import { rolesPage } from './features/system/roles-page.ts';
import { healthRoutes, metricsRoutes, problemRoutes } from './features/system/system.routes.ts';
import { supplyFeatureRoutes } from './features/supplies/supply-feature.ts';
import { calibrationRoutes } from './features/torches/calibrations.routes.ts';
import { torchRoutes } from './features/torches/torches.routes.ts';
import { holdRoutesToAccessTable } from './platform/http/access.ts';
import { describeApi } from './platform/http/describe-api.ts';
import { keepCookies, type CookieJar } from './platform/http/kept-cookies.ts';
import { servePage } from './platform/http/page-files.ts';
import { measure } from './platform/http/metrics.ts';
import { tooManyTries } from './platform/http/problem.ts';
import { handleProblems } from './platform/http/problem-handler.ts';
import { requireSignIn } from './platform/http/sign-in.ts';
import { LAST_ANSWERS_MS, patience, unreadRequests } from './platform/http/unread-requests.ts';
import { schemaController, validateRequests } from './platform/http/validate.ts';
import { continueIds } from './platform/ids.ts';
import type { Platform } from './platform/platform.ts';
import { createServices, type Services } from './services.ts';

export interface App {
  http: FastifyInstance;
  services: Services;
  /** For making the first owner; counts only while there is none. */
  firstOwnerCode: string;
}

interface AppOptions {
  logLevel?: string;
  authority?: TrustedAuthority;
  /** What visitors may look round in; without it there is none. */
  sampleStudio?: SampleStudio;
  /** Of a sample studio: keeps the cookies of its one visitor here. */
  cookieJar?: CookieJar;
  /** Servers in front whose headers say who asks, and whether by https. */
  trustedProxies?: readonly string[];
}

/** The one place where routes are registered. */
export async function buildApp(
  platform: Platform,
  { logLevel = 'warn', authority, sampleStudio, cookieJar, trustedProxies = [] }: AppOptions = {},
): Promise<App> {
  continueIds(platform.db);
  const firstOwnerCode = randomBytes(9).toString('base64url');
  const planning = createPlanning();
  const log: FastifyBaseLogger = pino({ level: logLevel, redact: ['req.headers.authorization', 'req.headers.cookie'] });
  const onFault = (error: unknown) => log.error({ err: error }, 'work that goes on by itself');
  const services = createServices(platform, { planning, firstOwnerCode, onFault, sampleStudio });
  const http = Fastify({
    loggerInstance: log,
    bodyLimit: 1024 * 1024,
    trustProxy: trustedProxies.length === 0 ? false : [...trustedProxies],
    ...patience,
    ...unreadRequests,
    schemaController,
  }).withTypeProvider<ZodTypeProvider>();

  http.addHook('onReady', async () => {
    services.planSearches.noteInterrupted();
    services.backups.noteInterrupted();
  });
  // What computes for long answers with what it has, so that the last requests end soon.
  let hangingUp: NodeJS.Timeout | undefined;
  http.addHook('preClose', async () => {
    services.planSearches.interruptAll();
    planning.endAll();
    hangingUp = setTimeout(() => http.server.closeAllConnections(), LAST_ANSWERS_MS);
  });
  http.addHook('onClose', async () => {
    clearTimeout(hangingUp);
    await Promise.all([planning.close(), services.backups.idle()]);
  });

  // JSON alone is taken; a merge patch (RFC 7396) is JSON under a name of its own.
  http.removeContentTypeParser('text/plain');
  http.addContentTypeParser('application/merge-patch+json', { parseAs: 'string' }, http.getDefaultJsonParser('error', 'error'));
  handleProblems(http);
  const metrics = measure(http, platform.db);
  holdRoutesToAccessTable(http);
  await http.register(cookie);
  if (cookieJar) keepCookies(http, cookieJar);
  if (sampleStudio) chooseBook(http, services.samples);
  // It speaks plain HTTP on the studio's own network: told to insist on TLS, browsers would find nothing there.
  await http.register(helmet, {
    strictTransportSecurity: false,
    contentSecurityPolicy: { directives: { upgradeInsecureRequests: null } },
  });
  await http.register(rateLimit, { global: false, errorResponseBuilder: (_, { ttl }) => tooManyTries(ttl) });
  requireSignIn(http, services.keys);
  validateRequests(http);
  await describeApi(http);
  await http.register(rolesPage);
  // Addresses of private links hold their secret: no line of the log is to have them.
  await http.register(clientPageRoutes, {
    prefix: '/link',
    logLevel: 'warn',
    client: services.client,
    isSample: cookieJar !== undefined,
  });
  await http.register(materialsPage);
  await http.register(tabletPage, { authority });
  await servePage(http);
  await http.register(
    async (api) => {
      // What the book says is kept by no browser's cache: tablets change hands. Pictures and sheets say otherwise themselves.
      api.addHook('onSend', async (_request, reply) => {
        if (!reply.hasHeader('cache-control')) reply.header('cache-control', 'no-store');
      });
      noteLooks(api, services.looks);
      await api.register(healthRoutes, { prefix: '/health', platform, ownerMissing: services.people.ownerMissing });
      await api.register(metricsRoutes, { prefix: '/metrics', metrics });
      await api.register(calculationRoutes, { prefix: '/calculations', platform, planning });
      await api.register(materialRoutes);
      await api.register(metalRoutes, { prefix: '/metals', metals: services.metals });
      await api.register(problemRoutes, { prefix: '/problems' });
      await api.register(journalRoutes, { prefix: '/journal', platform });
      await api.register(peopleRoutes, { prefix: '/people', people: services.people });
      await api.register(sampleRoutes, { prefix: '/samples', samples: services.samples });
      await api.register(searchRoutes, { prefix: '/search', search: services.search });
      await api.register(preferencesRoutes, { prefix: '/preferences', preferences: services.preferences });
      await api.register(pinRoutes, { prefix: '/pins', pins: services.pins });
      await api.register(tabletRoutes, { prefix: '/shared-tablets', tablets: services.tablets, pins: services.pins });
      await api.register(sessionRoutes, { prefix: '/sessions', keys: services.keys });
      await api.register(otherSessionRoutes, { prefix: '/sessions', keys: services.keys });
      await api.register(tokenRoutes, { prefix: '/tokens', keys: services.keys });
      await api.register(clientRoutes, { prefix: '/clients', clients: services.clients });
      await api.register(clientRightsRoutes, { prefix: '/clients', rights: services.rights });
      await api.register(clientLookRoutes, { prefix: '/client-looks', looks: services.looks });
      await api.register(torchRoutes, { prefix: '/torches', torches: services.torches });
      await api.register(calibrationRoutes, { prefix: '/calibrations', calibrations: services.calibrations, platform });
      await api.register(pieceFeatureRoutes, { platform, bench: services.bench });
      await api.register(photoRoutes, { prefix: '/photos', photos: services.photos, platform });
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
      await api.register(benchSheetRoutes, { prefix: '/documents', platform });
      await api.register(documentRoutes, { prefix: '/documents', documents: services.documents });
      await api.register(importRoutes, { prefix: '/imports', imports: services.imports, platform });
      await api.register(backupRoutes, { prefix: '/backups', backups: services.backups });
      await api.register(exportRoutes, { prefix: '/exports', exports: services.exports });
      await api.register(listExportRoutes, { prefix: '/exports', imports: services.imports });
      await api.register(labelRoutes, { prefix: '/labels', labels: services.labels });
      await api.register(privateLinkRoutes, { prefix: '/private-links', links: services.links, platform });
      await api.register(clientLetterRoutes, { prefix: '/client-letters', letters: services.letters, platform });
      await api.register(clientMessageRoutes, { prefix: '/client-messages', links: services.links });
      await api.register(pieceDrawingRoutes, { prefix: '/pieces', platform });
      await api.register(drawingCalculationRoutes, { prefix: '/calculations', platform });
      await api.register(paymentRoutes, { prefix: '/payments', payments: services.payments, platform });
      await api.register(placeRulesRoutes, { prefix: '/place-rules', placeRules: services.placeRules });
      await api.register(hallmarkPacketRoutes, { prefix: '/hallmark-packets', packets: services.packets, platform });
      await api.register(firstStepRoutes, { prefix: '/first-steps', platform });
      await api.register(settingsRoutes, { prefix: '/settings', settings: services.settings });
      await api.register(solderProductRoutes, { prefix: '/solder-products', solderProducts: services.solderProducts, platform });
      await api.register(safetySheetRoutes, { prefix: '/solder-products', safetySheets: services.safetySheets });
      await api.register(solderLotRoutes, { prefix: '/solder-lots', solderLots: services.solderLots, platform });
      await api.register(stockMovementRoutes, { prefix: '/stock-movements', stockMovements: services.stockMovements, platform });
      await api.register(stockRoutes, { prefix: '/stock', stock: services.stock });
      await api.register(reorderListRoutes, { prefix: '/reorder-list', reorderList: services.reorderList });
      await api.register(scrapJarRoutes, { prefix: '/scrap-jars', scrap: services.scrap });
      await api.register(scrapReturnRoutes, { prefix: '/scrap-returns', scrap: services.scrap, platform });
      await api.register(bathRoutes, { prefix: '/pickle-baths', baths: services.baths, platform });
      await api.register(dipRoutes, { prefix: '/bath-dips', baths: services.baths, platform });
      await api.register(stocktakeRoutes, { prefix: '/stocktakes', stocktakes: services.stocktakes, platform });
      await api.register(supplyFeatureRoutes, { supply: services.supply, platform });
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
