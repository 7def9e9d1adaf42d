export { getSettings } from './settings.service.ts';
export type { Settings } from './settings.schema.ts';
