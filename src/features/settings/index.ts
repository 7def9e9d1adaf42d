export { learnedTrim } from './learned-trim.ts';
export { getSettings } from './settings.service.ts';
export { SettingsBody, type Settings } from './settings.schema.ts';
