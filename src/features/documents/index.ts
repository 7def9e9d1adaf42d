export { enteredState } from './documents.store.ts';
export { careCard, isFinished } from './hand-over-papers.ts';
export type { MessageKey } from './messages/en.ts';
export type { Paper } from './paper.ts';
export { freezeLetter, quoteLetter } from './quote-letter.ts';
export { PaperQuery, sendPaper } from './send-paper.ts';
export { wordingFor, type Wording } from './wording.ts';
