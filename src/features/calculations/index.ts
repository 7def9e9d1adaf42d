export { ObservedHeatSchema, ObservedStripSchema, ObservedTimesSchema, TorchCalibrationReply } from './calibration.schema.ts';
export { PlanCheckReply, PlanSearchReply } from './check.schema.ts';
export { DesignSchema, SolderSchema, toDesign } from './design.schema.ts';
export { EstimateReply, EstimateRequestSchema, MOST_OF_ALL_PIECES } from './estimate.schema.ts';
export { knownDesign, knownObservations } from './known-designs.ts';
export { checkOrRefuse, createPlanning, whatIfOrRefuse, type Planning } from './planning.ts';
export { PlanEdits, PlanWhatIfReply } from './what-if.schema.ts';
export { BenchSchema, PlanSchema, SearchOptionsSchema } from './plan.schema.ts';
