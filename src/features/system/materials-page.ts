import type { FastifyPluginAsync } from 'fastify';
import { escapeMarkup } from '../../../shared/drawing/svg-text.ts';
import { METAL_TABLE, type LinearInTemperature } from '../../../shared/materials/metal-table.ts';
import { REFERENCE_FILLERS, SOLDER_GRADES, type SolderEntry } from '../../../shared/materials/solder-table.ts';
import type { Sourced } from '../../../shared/materials/sourced.ts';
import { htmlPage, htmlTable } from './html-page.ts';

/** Every value that the engine reckons with, its source and how far it may be trusted; made from the tables themselves. */
export const materialsPage: FastifyPluginAsync = async (app) => {
  app.get('/docs/materials', { schema: { hide: true } }, async (_request, reply) => {
    reply.type('text/html; charset=utf-8');
    return PAGE;
  });
};

const HEAD = ['What', 'Value', 'Standing', 'Source'];

const PROPERTIES = [
  ['densityGPerCm3', 'density, g/cm³'],
  ['finenessFraction', 'fineness, share of silver'],
  ['solidusC', 'solidus, °C'],
  ['castSolidusC', 'solidus as cast, °C'],
  ['liquidusC', 'liquidus, °C'],
  ['conductivityWPerMK', 'conductivity, W/(m·K), T in °C'],
  ['specificHeatJPerKgK', 'specific heat, J/(kg·K), T in °C'],
  ['emissivityFraction', 'emissivity'],
] as const;

const metals = Object.entries(METAL_TABLE).map(
  ([id, metal]) => `<h3 id="${id}">${escapeMarkup(metal.name)} <code>${id}</code></h3>
${htmlTable(
  HEAD,
  PROPERTIES.map(([key, words]) => row(words, metal[key])),
)}`,
);

const solders = (entries: readonly [string, Omit<SolderEntry, 'name'>][]): string =>
  htmlTable(
    ['Solder', ...HEAD],
    entries.flatMap(([id, entry]) =>
      [
        row('composition, % by mass', composed(entry)),
        row('solidus, °C', entry.solidusC),
        row('liquidus, °C', entry.liquidusC),
      ].map((cells, i) => [
        i === 0 ? `<strong>${escapeMarkup(id)}</strong>${(entry.composition.value.Cd ?? 0) > 0 ? ' holds cadmium' : ''}` : '',
        ...cells,
      ]),
    ),
  );

const PAGE = htmlPage(
  'Metals and solders',
  `<p>Standing says how far a value may be trusted: <em>found</em> in a copy of the named source; from <em>memory</em> of the trade or a handbook, not looked up
again; <em>derived</em> from other values here; or a <em>judgement</em> made for the heat model. Where the trade has no source, it says so.</p>
<h2>Metals</h2>
<p>These are the same for every studio. What a studio adds of its own is not here but in its book, at <code>GET /api/v1/metals</code>, each value with who says so.</p>
${metals.join('\n')}
<h2>Solder grades</h2>
<p>A grade is a word. A plan uses the two temperatures of the product in your own drawer.</p>
${solders(Object.entries(SOLDER_GRADES))}
<h2>Rows of the standard, to compare with</h2>
<p>Those with cadmium are here so that old work can be recognised. They are never offered, and nothing with cadmium in it may be heated.</p>
${solders(Object.entries(REFERENCE_FILLERS))}`,
);

function row(words: string, { value, standing, source }: Sourced<number | string | LinearInTemperature>): string[] {
  return [words, escapeMarkup(shown(value)), standing, escapeMarkup(source)];
}

function shown(value: number | string | LinearInTemperature): string {
  if (typeof value !== 'object') return String(value);
  const { at20C, perK } = value;
  return perK === 0 ? String(at20C) : `${at20C} ${perK < 0 ? '−' : '+'} ${Math.abs(perK)} · (T − 20)`;
}

function composed({ composition }: Pick<SolderEntry, 'composition'>): Sourced<string> {
  const value = Object.entries(composition.value).map(([element, percent]) => `${element} ${percent}`);
  return { ...composition, value: value.join(', ') };
}
