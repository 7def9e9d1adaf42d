import { createLearningService } from './features/learning/learning.service.ts';
import { createClientLetterService } from './features/client-letters/client-letters.service.ts';
import { createStudioDayService } from './features/studio-days/studio-days.service.ts';
import { createBenchNowService } from './features/bench/bench-now.service.ts';
import { createBenchStepService } from './features/bench/bench-steps.service.ts';
import { createBackupService } from './features/backups/backups.service.ts';
import { createBathService } from './features/baths/baths.service.ts';
import { createMonthLockService } from './features/bench-time/month-locks.service.ts';
import { createBenchTimeService } from './features/bench-time/bench-time.service.ts';
import type { Planning } from './features/calculations/index.ts';
import { createClientLookService } from './features/client-rights/client-looks.ts';
import { createClientRightsService } from './features/client-rights/client-rights.service.ts';
import { createClientService } from './features/clients/clients.service.ts';
import { createCommissionService } from './features/commissions/commissions.service.ts';
import { createDocumentService } from './features/documents/documents.service.ts';
import { createExportService } from './features/exports/exports.service.ts';
import { createImportService } from './features/imports/imports.service.ts';
import { createLabelService } from './features/labels/labels.service.ts';
import { createMetalService } from './features/metals/metals.service.ts';
import { createHallmarkPacketService } from './features/hallmarks/hallmark-packets.service.ts';
import { createPhotoService } from './features/photos/photos.service.ts';
import { createKeysService } from './features/people/keys.service.ts';
import { createPieceFeature } from './features/pieces/piece-feature.ts';
import { createPinService } from './features/people/pins.service.ts';
import { createTabletService } from './features/people/tablets.service.ts';
import { createPeopleService } from './features/people/people.service.ts';
import { createPreferencesService } from './features/preferences/preferences.service.ts';
import { createSampleService, type SampleStudio } from './features/samples/samples.service.ts';
import { createSearchService } from './features/search/search.service.ts';
import { createPlaceRulesService } from './features/place-rules/place-rules.service.ts';
import { createClientPageService } from './features/private-links/client.service.ts';
import { createPrivateLinkService } from './features/private-links/private-links.service.ts';
import { acceptNow } from './features/quotes/accept-now.ts';
import { createPaymentService } from './features/quotes/payments.service.ts';
import { createPlanSearchService } from './features/plan-searches/plan-searches.service.ts';
import { createQuoteService } from './features/quotes/quotes.service.ts';
import { createReportService } from './features/reports/reports.service.ts';
import { createScrapService } from './features/scrap/scrap.service.ts';
import { createSettingsService } from './features/settings/settings.service.ts';
import { createMetalProductService } from './features/stock/metal-products.service.ts';
import { createMetalLotService } from './features/stock/metal-lots.service.ts';
import { createMetalMovementService } from './features/stock/metal-movements.service.ts';
import { createReorderListService } from './features/stock/reorder-list.service.ts';
import { createSolderLotService } from './features/stock/solder-lots.service.ts';
import { createSafetySheetService } from './features/stock/safety-sheets.service.ts';
import { createSolderProductService } from './features/stock/solder-products.service.ts';
import { createStockMovementService } from './features/stock/stock-movements.service.ts';
import { createStockService } from './features/stock/stock.service.ts';
import { createStocktakeService } from './features/stock/stocktakes.service.ts';
import { createSupplierOrderService } from './features/stock/supplier-orders.service.ts';
import { createSupplierService } from './features/stock/suppliers.service.ts';
import { createSupplyFeature } from './features/supplies/supply-feature.ts';
import { createCalibrationService } from './features/torches/calibrations.service.ts';
import { createTorchService } from './features/torches/torches.service.ts';
import { createLateNotes } from './platform/late-notes.ts';
import type { Platform } from './platform/platform.ts';

export type Services = ReturnType<typeof createServices>;

interface Made {
  planning: Planning;
  firstOwnerCode: string;
  onFault: (error: unknown) => void;
  sampleStudio: SampleStudio | undefined;
}

/** The one place where services are made. */
export function createServices(platform: Platform, { planning, firstOwnerCode, onFault, sampleStudio }: Made) {
  const lateNotes = createLateNotes(onFault);
  const bench = createPieceFeature(platform, planning);
  const people = createPeopleService(platform, firstOwnerCode);
  const benchTimes = createBenchTimeService(platform);
  const listed = {
    clients: createClientService(platform),
    suppliers: createSupplierService(platform),
    supply: createSupplyFeature(platform),
    solderProducts: createSolderProductService(platform),
    safetySheets: createSafetySheetService(platform),
    solderLots: createSolderLotService(platform),
    metalProducts: createMetalProductService(platform),
    metalLots: createMetalLotService(platform),
  };
  return {
    ...listed,
    imports: createImportService(platform, listed),
    exports: createExportService(platform),
    lateNotes,
    backups: createBackupService(platform, lateNotes),
    keys: createKeysService(platform),
    people,
    samples: createSampleService(platform, { studio: sampleStudio, ownerMissing: people.ownerMissing, firstOwnerCode }),
    preferences: createPreferencesService(platform),
    search: createSearchService(platform),
    settings: createSettingsService(platform),
    metals: createMetalService(platform),
    stockMovements: createStockMovementService(platform),
    stock: createStockService(platform),
    reorderList: createReorderListService(platform),
    baths: createBathService(platform),
    scrap: createScrapService(platform),
    stocktakes: createStocktakeService(platform),
    supplierOrders: createSupplierOrderService(platform),
    metalMovements: createMetalMovementService(platform),
    reports: createReportService(platform),
    torches: createTorchService(platform),
    calibrations: createCalibrationService(platform, planning),
    bench,
    planSearches: createPlanSearchService(platform, { planning, plans: bench.plans, onFault, lateNotes }),
    benchTimes,
    learning: createLearningService(platform),
    studioDays: createStudioDayService(platform),
    monthLocks: createMonthLockService(platform),
    benchNow: createBenchNowService(platform, { heats: bench.heats, benchTimes }),
    benchSteps: createBenchStepService(platform, { pieces: bench, benchTimes, solderLots: listed.solderLots }),
    commissions: createCommissionService(platform, acceptNow),
    quotes: createQuoteService(platform),
    payments: createPaymentService(platform),
    documents: createDocumentService(platform),
    labels: createLabelService(platform),
    links: createPrivateLinkService(platform),
    client: createClientPageService(platform),
    placeRules: createPlaceRulesService(platform),
    packets: createHallmarkPacketService(platform),
    letters: createClientLetterService(platform),
    looks: createClientLookService(platform),
    rights: createClientRightsService(platform),
    photos: createPhotoService(platform),
    pins: createPinService(platform),
    tablets: createTabletService(platform),
  };
}
