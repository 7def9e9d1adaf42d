export { getSettings } from './settings.service.ts';
export type { Settings } from './settings.schema.ts';
export { BenchSetting } from './settings.schema.ts';
