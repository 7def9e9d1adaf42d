export { benchFromBook, holdToTorch, type AskedBench } from './book-bench.ts';
