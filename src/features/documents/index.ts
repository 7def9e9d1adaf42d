export { createDocumentService, type DocumentService } from './documents.service.ts';
export { accountFacts } from './money-papers.ts';
export { freezeLetter } from './quote-letter.ts';
export { PaperQuery, sendPaper } from './send-paper.ts';
export { wordingFor, type Wording } from './wording.ts';
