import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { escapeMarkup } from '../../../shared/drawing/svg-text.ts';
import { htmlPage } from './html-page.ts';
import { TABLET_WORDS } from './tablet-words.ts';

/** What a device has to be told to trust, so that it trusts this server. */
export interface TrustedAuthority {
  /** PEM; its key is nobody's but the server's. */
  certificate: string;
  /** SHA-256, as devices show it. */
  fingerprint: string;
}

type Language = keyof typeof TABLET_WORDS;
const CERTIFICATE = '/docs/tablet/authority.crt';

/** How a tablet is added, step by step; with the certificate to trust, where the server has an authority. */
export const tabletPage: FastifyPluginAsyncZod<{ authority: TrustedAuthority | undefined }> = async (app, { authority }) => {
  app.get('/docs/tablet', { schema: { hide: true } }, async (request, reply) => {
    const asked = new URL(request.url, 'http://page').searchParams.get('language') ?? request.headers['accept-language'] ?? '';
    reply.type('text/html; charset=utf-8').header('vary', 'accept-language');
    return pageIn(/^de\b/i.test(asked) ? 'de' : 'en', authority);
  });
  if (!authority) return;
  // Devices know it by its type; in this form (DER) every one of them reads it.
  const der = Buffer.from(authority.certificate.replace(/-----[^-]+-----|\s/g, ''), 'base64');
  app.get(CERTIFICATE, { schema: { hide: true } }, async (_request, reply) => {
    reply.type('application/x-x509-ca-cert').header('content-disposition', 'attachment; filename="hearthbook-authority.crt"');
    return reply.send(der);
  });
};

function pageIn(language: Language, authority: TrustedAuthority | undefined): string {
  const words = TABLET_WORDS[language];
  const other = language === 'de' ? 'en' : 'de';
  const fetching = authority
    ? `<p><a href="${CERTIFICATE}">${words.download}</a></p>
<p>${words.fingerprint}:<br><code>${escapeMarkup(authority.fingerprint.replaceAll(':', ' '))}</code></p>`
    : '';
  const steps = words.steps.map(
    ({ title, text }, index) =>
      `<li><h2>${title}</h2>\n${text.map((one) => `<p>${one}</p>`).join('\n')}${index === 1 ? fetching : ''}${index === 3 ? `<p><a href="/">${words.open}</a></p>` : ''}</li>`,
  );
  return htmlPage(
    words.title,
    `<p><a href="?language=${other}" lang="${other}" hreflang="${other}">${words.otherLanguage}</a></p>
<p>${words.lead}</p>
${authority ? '' : `<p><strong>${words.notServed}</strong></p>`}
<ol>
${steps.join('\n')}
</ol>
<p>${words.after}</p>
<p>${words.last}</p>`,
    language,
  );
}
