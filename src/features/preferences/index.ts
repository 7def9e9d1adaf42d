export { languageOf } from './preferences.service.ts';
