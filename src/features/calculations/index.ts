export { DesignSchema, SolderSchema, toDesign } from './design.schema.ts';
export { BenchSchema, PlanSchema, SearchOptionsSchema, toPlan } from './plan.schema.ts';
