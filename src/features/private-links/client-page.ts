import { createHash } from 'node:crypto';
import { escapeMarkup } from '../../../shared/drawing/svg-text.ts';
import type { MessageKey, Wording } from '../documents/index.ts';
import { STAGES, type ClientView } from './client-view.ts';

const STYLE = `
* { box-sizing: border-box }
:root { background: Canvas; color: CanvasText; color-scheme: light dark }
body { font: 1.05rem/1.5 system-ui, sans-serif; margin: 1.5rem auto; max-width: 44rem; padding: 0 1rem }
h1 { font-size: 1.5rem; overflow-wrap: anywhere }
h2 { font-size: 1.15rem; margin: 2rem 0 .5rem }
ol.stages { display: flex; flex-wrap: wrap; gap: .4rem; list-style: none; margin: 0; padding: 0 }
ol.stages li { border: 1px solid; border-radius: .3rem; padding: .25rem .7rem }
ol.stages li[aria-current] { border-width: 3px; font-weight: bold }
table { border-collapse: collapse; width: 100% }
th, td { border-bottom: 1px solid #8888; padding: .45rem .8rem .45rem 0; text-align: left; vertical-align: top }
dl { display: grid; gap: .3rem 1.5rem; grid-template-columns: auto 1fr; margin: .8rem 0 0 }
dd { margin: 0 }
form { border: 1px solid #8888; border-radius: .3rem; margin: .8rem 0; padding: .8rem 1rem }
label { display: block; margin-bottom: .6rem }
input[type=checkbox] { height: 1.3rem; margin-right: .5rem; vertical-align: text-bottom; width: 1.3rem }
textarea { display: block; font: inherit; min-height: 7rem; width: 100% }
button { font: inherit; font-weight: bold; min-height: 2.9rem; padding: .4rem 1.4rem }
p.sample { border: 3px dashed; border-radius: .3rem; margin: 0 0 1.5rem; padding: .6rem 1rem }
p.said { border: 3px solid; border-radius: .3rem; font-weight: bold; padding: .6rem 1rem }
ul.photos { display: flex; flex-wrap: wrap; gap: 1rem; list-style: none; margin: 0; padding: 0 }
ul.photos li { max-width: 12rem }
ul.photos img { background: #8882; border-radius: .3rem; display: block; height: auto; max-width: 100% }
@media (max-width: 34rem) {
  thead { display: none }
  tr { border-bottom: 1px solid #8888; display: block; padding: .4rem 0 }
  td { border: 0; display: grid; gap: 1rem; grid-template-columns: 8rem 1fr; padding: .15rem 0 }
  td::before { content: attr(data-label) }
}
:focus-visible { outline: 3px solid; outline-offset: 2px }
`;

/** The page may show itself and send its own forms; nothing else, and to nobody else. */
export const PAGE_CSP = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(STYLE).digest('base64')}'`,
  "img-src 'self'",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Where a page of a client is shown. */
interface Shown {
  /** Address of the page itself, whose secret is in it. */
  base: string | null;
  /** In the invented studio, where nobody is a client. */
  isSample: boolean;
}

/** A commission as its client sees it. */
export function clientPage(
  view: ClientView,
  { base, isSample, said }: Shown & { base: string; said: string | undefined },
): string {
  const { wording, studioName, title, dueOn } = view;
  const { say, date } = wording;
  return htmlPage(wording, `${title} – ${studioName}`, [
    ...sampleBanner(wording, isSample),
    `<p>${escapeMarkup(studioName)}</p>`,
    `<h1>${escapeMarkup(title)}</h1>`,
    ...(said === undefined ? [] : [`<p class="said" role="status">${words(say(`link.said_${said}` as MessageKey))}</p>`]),
    `<h2>${words(say('link.stage'))}</h2>`,
    stages(view),
    ...(dueOn === null ? [] : [`<dl><dt>${words(say('link.due'))}</dt><dd>${words(date(dueOn))}</dd></dl>`]),
    `<h2>${words(say('link.offers'))}</h2>`,
    offers(view, base),
    ...answers(view, base),
    ...account(view),
    ...photos(view, base),
    ...cards(view, base),
    ask(view, base),
    `<p><small>${words(say('link.privacy'))}</small></p>`,
  ]);
}

/** Why something was not done, with the way back where there is one. */
export function refusalPage(wording: Wording, reason: MessageKey, { base, isSample }: Shown): string {
  const { say } = wording;
  return htmlPage(wording, say('refused.title'), [
    ...sampleBanner(wording, isSample),
    `<h1>${words(say('refused.title'))}</h1>`,
    `<p role="alert">${words(say(reason))}</p>`,
    ...(base === null ? [] : [`<p><a href="${escapeMarkup(base)}">${words(say('link.back'))}</a></p>`]),
  ]);
}

const words = escapeMarkup;

function sampleBanner({ say }: Wording, isSample: boolean): string[] {
  return isSample ? [`<p class="sample">${words(say('link.sample'))}</p>`] : [];
}

function htmlPage({ locale }: Wording, title: string, parts: readonly string[]): string {
  return `<!doctype html>
<html lang="${words(locale)}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex, nofollow">
<meta name="referrer" content="no-referrer">
<title>${words(title)}</title>
<style>${STYLE}</style>
<main>
${parts.join('\n')}
</main>
</html>
`;
}

function stages({ wording: { say }, stage }: ClientView): string {
  const shown = STAGES.some((one) => one === stage) ? STAGES : [...STAGES, stage];
  const items = shown.map((one) => {
    const name = words(say(`stage.${one}` as MessageKey));
    return one === stage ? `<li aria-current="step">${name} ${words(say('link.now'))}</li>` : `<li>${name}</li>`;
  });
  return `<ol class="stages">${items.join('')}</ol>`;
}

function offers({ wording, versions }: ClientView, base: string): string {
  const { say, money, date } = wording;
  if (versions.length === 0) return `<p>${words(say('link.no_offers'))}</p>`;
  const head = ['label.version', 'link.sent', 'label.gross', 'link.state', 'link.letter'] as const;
  const rows = versions.map(({ number, sentOn, grossMinor, currency, state, validUntil }) => {
    const letter = `${escapeMarkup(base)}/letters/${number}`;
    const cells = [
      words(say('link.version', { version: number })),
      words(date(sentOn)),
      words(money(grossMinor, currency)),
      words(say(`version.${state}` as MessageKey, { date: date(validUntil) })),
      `<span><a href="${letter}">${words(say('link.read'))}</a> <a href="${letter}?format=pdf">${words(say('link.pdf'))}</a></span>`,
    ];
    return `<tr>${cells.map((cell, column) => `<td data-label="${words(say(head[column]!))}">${cell}</td>`).join('')}</tr>`;
  });
  return `<table><thead><tr>${head.map((key) => `<th scope="col">${words(say(key))}</th>`).join('')}</tr></thead><tbody>${rows.join('')}</tbody></table>`;
}

function answers({ wording: { say, money }, versions }: ClientView, base: string): string[] {
  const open = versions.find(({ state }) => state === 'open');
  if (!open) return [];
  const { number: version, grossMinor, currency } = open;
  const form = (answer: string, inner: string) =>
    `<form method="post" action="${escapeMarkup(base)}/answers"><input type="hidden" name="version" value="${version}"><input type="hidden" name="answer" value="${answer}">${inner}</form>`;
  const accept = words(say('link.accept_words', { version, amount: money(grossMinor, currency) }));
  return [
    `<h2>${words(say('link.answer', { version }))}</h2>`,
    form(
      'accepted',
      `<label><input type="checkbox" name="read" value="yes" required>${accept}</label><button>${words(say('link.accept'))}</button>`,
    ),
    form('declined', `<p>${words(say('link.decline_words'))}</p><button>${words(say('link.decline'))}</button>`),
  ];
}

function account({ wording: { say, money }, account: sums }: ClientView): string[] {
  if (!sums) return [];
  const { due, receivedMinor, currency } = sums;
  const rows: [MessageKey, number][] = due
    ? [
        ['label.gross', due.grossMinor],
        ['label.received', receivedMinor],
        due.balanceMinor < 0 ? ['label.owed_back', -due.balanceMinor] : ['label.balance', due.balanceMinor],
      ]
    : [['label.received_in_all', receivedMinor]];
  return [
    `<h2>${words(say('link.account'))}</h2>`,
    `<dl>${rows.map(([key, minor]) => `<dt>${words(say(key))}</dt><dd>${words(money(minor, currency))}</dd>`).join('')}</dl>`,
  ];
}

function cards({ wording: { say }, cards: found }: ClientView, base: string): string[] {
  if (found.length === 0) return [];
  const items = found.map(({ serial, number }) => {
    const card = `${escapeMarkup(base)}/care-cards/${serial}`;
    return `<li><a href="${card}">${words(number)}</a> <a href="${card}?format=pdf">${words(say('link.pdf'))}</a></li>`;
  });
  return [`<h2>${words(say('link.care'))}</h2>`, `<ul>${items.join('')}</ul>`];
}

function photos({ wording: { say, date }, photos: found }: ClientView, base: string): string[] {
  if (found.length === 0) return [];
  const items = found.map(({ id, caption, takenOn, widthPx, heightPx }) => {
    const picture = `${escapeMarkup(base)}/photos/${id}`;
    const called = words(caption ?? say('link.photo_of', { date: date(takenOn) }));
    const small = `<img src="${picture}?size=thumbnail" width="${widthPx}" height="${heightPx}" loading="lazy" alt="">`;
    return `<li><a href="${picture}">${small}${called}</a></li>`;
  });
  return [`<h2>${words(say('link.photos'))}</h2>`, `<ul class="photos">${items.join('')}</ul>`];
}

function ask({ wording: { say } }: ClientView, base: string): string {
  return `<h2>${words(say('link.ask'))}</h2>
<form method="post" action="${escapeMarkup(base)}/messages"><label>${words(say('link.words'))}<textarea name="words" required maxlength="2000"></textarea></label><button>${words(say('link.send'))}</button></form>`;
}
