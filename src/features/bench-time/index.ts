export { takeBackTime } from './take-back-time.ts';
export { NewBenchTime, BenchTimeMove } from './bench-time.schema.ts';
export type { BenchTimeService } from './bench-time.service.ts';
