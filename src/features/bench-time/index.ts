export { takeBackTime } from './take-back-time.ts';
export { BenchTimeMove, BenchTimeReply, CurrentReply, NewBenchTime } from './bench-time.schema.ts';
export type { BenchTimeService } from './bench-time.service.ts';
