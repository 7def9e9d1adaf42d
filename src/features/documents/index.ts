export { enteredState } from './documents.store.ts';
export { careCard, isFinished } from './hand-over-papers.ts';
export { holdToFonts } from './letters-not-in-font.ts';
export type { MessageKey } from './messages/en.ts';
export type { Paper, PaperSize } from './paper.ts';
export { squareModules, squarePath } from './qr-picture.ts';
export { freezeLetter, quoteLetter } from './quote-letter.ts';
export { disposition, PaperQuery, paperReply, sendPaper, sendPrivately } from './send-paper.ts';
export { wordingFor, type Wording } from './wording.ts';
