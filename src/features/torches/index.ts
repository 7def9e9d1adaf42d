export { benchFromBook, holdToTorch } from './book-bench.ts';
