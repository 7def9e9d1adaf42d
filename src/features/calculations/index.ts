export { DesignSchema, SolderSchema, toDesign } from './design.schema.ts';
export { BenchSchema, PlanSchema, SearchOptionsSchema } from './plan.schema.ts';
