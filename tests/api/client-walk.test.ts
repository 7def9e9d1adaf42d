import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { aFollowedCommission, pdfOf, type Browser } from '../support/a-private-link.ts';
import { aSentQuote } from '../support/a-quote.ts';
import { startApp } from '../support/start-app.ts';
import { holdInside, secretsOf } from '../support/what-stays-inside.ts';

const accept = { answer: 'accepted', read: 'yes' };

/** Every page and paper that can be reached from a page by its links, with all that is in it: markup, PDF text and PDF metadata. */
async function crawl(browser: Browser): Promise<Map<string, string>> {
  const found = new Map<string, string>();
  const waiting = [''];
  for (let path = waiting.pop(); path !== undefined; path = waiting.pop()) {
    if (found.has(path)) continue;
    if (path.endsWith('?format=pdf')) {
      const { text, info } = await pdfOf(browser, path);
      found.set(path, `${text} ${JSON.stringify(info)}`);
    } else {
      const { text, headers } = await browser.get(path).expect(200);
      found.set(path, `${text.replace(/<style>[\s\S]*?<\/style>/, '')} ${JSON.stringify(headers)}`);
      waiting.push(...[...text.matchAll(/href="([^"]*)"/g)].map(([, link]) => link!.replace(browser.base, '')));
    }
  }
  return found;
}

test.each(['en', 'de'])(
  'whatever a link leads to in %s, in markup and metadata too, stays free of what is the studio’s',
  async (language) => {
    const app = await startApp();
    const other = await aCommission(app.desk, { title: 'Tollgate signet', wish: 'Other wish' });
    const { clientId } = (await app.desk.get(`/commissions/${other.id}`)).body;
    await app.desk.patch(`/clients/${clientId}`, { name: 'Tollgate' }, 1).expect(200);
    const { browser, quote, pieceId, commissionId } = await aFollowedCommission(app, { language });
    await browser.send('/answers', { version: '1', answer: 'declined' }).expect(303);
    const stone = { id: 'garnet', kind: 'stone', cost: '18.37', handlingFraction: 0.25 };
    const policy = { discountFraction: 0.1, tax: { method: 'gross_rounded_up', roundUpToMinor: 500 } };
    const again = await aSentQuote(app, commissionId, { overrides: { policy, passThrough: [stone] } });
    await browser.send('/answers', { ...accept, version: '2' }).expect(303);
    const amount = again.deposit;
    await app.desk.post('/payments', { commissionId, kind: 'deposit', how: 'card', amount }).expect(201);
    app.db.run(`UPDATE pieces SET state = 'ready', weighed_tenth_mg = 54300 WHERE id = '${pieceId}'`);
    const pages = await crawl(browser);
    expect([...pages.keys()].toSorted()).toEqual(
      ['', '/care-cards/1', '/letters/1', '/letters/2']
        .flatMap((path) => (path ? [path, `${path}?format=pdf`] : [path]))
        .toSorted(),
    );
    const told = async ({ id }: { id: string }) => {
      const { net, tax, gross, deposit, inside } = (await app.owner.get(`/quotes/${id}`)).body;
      const { totals, sold } = inside.answer;
      const rounding = sold.find(({ kind }: { kind: string }) => kind === 'rounding')?.netMinor ?? 0;
      const paper = [totals.discountMinor, rounding, net.amountMinor - rounding + totals.discountMinor];
      return [
        ...[net, tax, gross, deposit].map((one) => one.amountMinor as number),
        ...paper,
        gross.amountMinor - deposit.amountMinor,
      ];
    };
    for (const one of [quote, again]) {
      const secrets = await secretsOf(app.owner, one.id, [...(await told(quote)), ...(await told(again))]);
      const words = [
        ...secrets.words,
        'Tollgate',
        'Other wish',
        'Secret Street',
        'pays late',
        'example.org',
        '+49151',
        'handling',
      ];
      for (const [path, text] of pages) {
        holdInside(text, { words, figures: [...secrets.figures, '18.37', '22.96'] });
        expect([path, /amountMinor|finePrice|personId|[0-9a-f]{8}-[0-9a-f]{4}-7/.test(text)]).toEqual([path, false]);
      }
    }
  },
);
