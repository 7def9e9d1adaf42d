export { bookFromExport } from './book-from-export.ts';
