import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { htmlPaper, PAPER_CSP } from './html-paper.ts';
import type { Paper } from './paper.ts';
import { wordingFor } from './wording.ts';

export const PaperQuery = z.strictObject({ format: z.enum(['html', 'pdf']).default('html') });

/** What a route that answers with a paper sends. */
export const paperReply = {
  description: 'The paper as a page to read and print, or as PDF with ?format=pdf',
  content: {
    'text/html': { schema: z.string() },
    'application/pdf': { schema: z.unknown().meta({ type: 'string', format: 'binary' }) },
  },
};

/** Kept by nobody on the way, found by no search, and with nothing on its page but itself. */
export function sendPrivately(reply: FastifyReply, policy: string): FastifyReply {
  return reply
    .header('content-security-policy', policy)
    .header('cache-control', 'no-store')
    .header('x-robots-tag', 'noindex, nofollow')
    .header('referrer-policy', 'no-referrer');
}

export async function sendPaper(reply: FastifyReply, paper: Paper, format: 'html' | 'pdf'): Promise<string | Buffer> {
  sendPrivately(reply, PAPER_CSP);
  if (format === 'html') {
    reply.type('text/html; charset=utf-8');
    return htmlPaper(paper);
  }
  // Loaded by the first who asks: most of a day nobody does.
  const { pdfPaper } = await import('./pdf-paper.ts');
  const { say } = wordingFor(paper.language);
  const bytes = await pdfPaper(paper, (page, pages) => say('page.of', { page, pages }));
  reply.type('application/pdf').header('content-disposition', disposition(paper.title));
  return bytes;
}

/** Shown in the browser, under a name to save it by (RFC 6266, RFC 8187). */
export function disposition(title: string): string {
  const plain = title.normalize('NFKD').replaceAll(/[^\w. -]/g, '');
  const exact = encodeURIComponent(title.replaceAll(/["\\/:*?<>|]/g, '-')).replaceAll(
    /['()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `inline; filename="${plain}.pdf"; filename*=UTF-8''${exact}.pdf`;
}
