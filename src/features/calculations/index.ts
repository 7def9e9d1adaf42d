export { ObservedHeatSchema, ObservedStripSchema, ObservedTimesSchema, TorchCalibrationReply } from './calibration.schema.ts';
export { PlanCheckReply, PlanSearchReply } from './check.schema.ts';
export { DesignSchema, SolderSchema, toDesign } from './design.schema.ts';
export { EstimateReply, EstimateRequestSchema } from './estimate.schema.ts';
export { knownObservations } from './known-designs.ts';
export { calibrate, checkOrRefuse, searchOrRefuse } from './planning.ts';
export { BenchSchema, PlanSchema, SearchOptionsSchema } from './plan.schema.ts';
