/** Every table of the book, as the migrations leave it (a test compares the two). Keys between tables are in the migrations. */
export * from './studio-tables.ts';
export * from './link-tables.ts';
export * from './book-tables.ts';
export * from './torch-tables.ts';
export * from './photo-tables.ts';
export * from './tablet-tables.ts';
export * from './search-tables.ts';
export * from './metal-tables.ts';
export * from './bench-tables.ts';
export * from './stock-tables.ts';
export * from './supply-tables.ts';
export * from './marking-tables.ts';
export * from './backup-tables.ts';
export * from './now-tables.ts';
