import { expect, test } from 'vitest';
import { loadColumns } from '../../../shared/drawing/load-columns.ts';
import { pairedBars } from '../../../shared/drawing/paired-bars.ts';
import { spreadChart } from '../../../shared/drawing/spread-chart.ts';
import { stackedColumns } from '../../../shared/drawing/stacked-columns.ts';

const words = { title: 'Grams <by> month', description: 'Two months' };
const figure = (value: number) => `${value} g`;

interface Drawn {
  width: number;
  height: number;
  /** Bars of one kind, left to right as they are written. */
  bars: (kind: number) => { x: number; y: number; width: number; height: number }[];
  middles: { cx: number; cy: number }[];
  texts: string[];
}

/** Reads a chart back, and holds everything in it to its viewBox, texts at six tenths of their size a letter. */
function read(svg: string): Drawn {
  const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number) as [number, number, number];
  const tags = [...svg.matchAll(/<(\w+)([^>]*)>([^<]*)/g)].map(([, name, text, content]) => ({
    name: name!,
    content: content!,
    is: Object.fromEntries([...text!.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, key, value]) => [key!, value!])),
  }));
  for (const { name, is, content } of tags) {
    const spans: Record<string, () => [number[], number[]]> = {
      rect: () => [
        [Number(is['x']), Number(is['x']) + Number(is['width'])],
        [Number(is['y']), Number(is['y']) + Number(is['height'])],
      ],
      line: () => [
        [Number(is['x1']), Number(is['x2'])],
        [Number(is['y1']), Number(is['y2'])],
      ],
      circle: () => [
        [Number(is['cx']) - Number(is['r']), Number(is['cx']) + Number(is['r'])],
        [Number(is['cy']) - Number(is['r']), Number(is['cy']) + Number(is['r'])],
      ],
      text: () => {
        const long = Array.from(content).length * 13 * 0.6;
        const from = Number(is['x']) - { start: 0, middle: long / 2, end: long }[is['text-anchor']!]!;
        return [
          [from, from + long],
          [Number(is['y']) - 10, Number(is['y']) + 2],
        ];
      },
    };
    const [across, down] = spans[name]?.() ?? [[], []];
    for (const x of across) expect([name, content, x >= 0 && x <= width, x]).toEqual([name, content, true, x]);
    for (const y of down) expect([name, content, y >= 0 && y <= height, y]).toEqual([name, content, true, y]);
  }
  return {
    width,
    height,
    bars: (kind) =>
      [
        ...svg.matchAll(new RegExp(`chart-fill-${kind}"><rect x="([^"]+)" y="([^"]+)" width="([^"]+)" height="([^"]+)"`, 'g')),
      ].map(([, x, y, w, h]) => ({ x: Number(x), y: Number(y), width: Number(w), height: Number(h) })),
    middles: tags
      .filter(({ is }) => is['class'] === 'chart-middle')
      .map(({ is }) => ({ cx: Number(is['cx']), cy: Number(is['cy']) })),
    texts: tags.filter(({ name }) => name === 'text').map(({ content }) => content),
  };
}

test.each([340, 640])('stackedColumns() %d wide: equal grams are equal lengths, parts stand on one another', (width) => {
  const svg = stackedColumns({
    columns: [
      { name: 'Sep', values: [2, 4] },
      { name: 'Oct', values: [6, 1] },
    ],
    kinds: ['hard', 'easy'],
    figure,
    words,
    width,
  });
  const { bars, texts } = read(svg);
  const [hard, easy] = [bars(0).slice(0, 2), bars(1).slice(0, 2)] as [ReturnType<Drawn['bars']>, ReturnType<Drawn['bars']>];
  expect(hard[1]!.height / hard[0]!.height).toBeCloseTo(3, 2);
  expect(easy[0]!.height / hard[0]!.height).toBeCloseTo(2, 2);
  expect(easy[0]!.y + easy[0]!.height).toBeCloseTo(hard[0]!.y, 1);
  expect(texts).toEqual(expect.arrayContaining(['Sep', 'Oct', '6 g', '7 g', 'hard', 'easy']));
  expect(svg).toContain('<title>Grams &lt;by&gt; month</title>');
});

test('stackedColumns() of many months and of none stays in its picture, and what is below zero goes down', () => {
  const months = Array.from({ length: 24 }, (_, index) => ({ name: `month ${index}`, values: [index, 1] }));
  const many = read(
    stackedColumns({
      columns: months,
      kinds: ['a long name of a solder that goes on and on and on', 'b'],
      figure,
      words,
      width: 340,
    }),
  );
  expect(many.texts.filter((text) => text.startsWith('month')).length).toBeLessThan(24);
  read(stackedColumns({ columns: [], kinds: ['a'], figure, words, width: 340 }));
  const { bars } = read(
    stackedColumns({ columns: [{ name: 'x', values: [3, -3] }], kinds: ['a', 'b'], figure, words, width: 340 }),
  );
  const [up, down] = [bars(0)[0]!, bars(1)[0]!];
  expect(down.y).toBeCloseTo(up.y + up.height, 1);
  expect(down.height).toBeCloseTo(up.height, 1);
});

test.each([340, 640])('pairedBars() %d wide: lengths go by the figures beside them, losses to the left', (width) => {
  const svg = pairedBars({
    groups: [
      { name: 'C26-001 A ring with a name that is longer than any telephone is wide', values: [100, 150] },
      { name: 'C26-002', values: [null, -50] },
    ],
    kinds: ['quoted', 'actual'],
    figure: (value) => `EUR ${value}`,
    words,
    width,
  });
  const { bars, texts } = read(svg);
  const [quoted, actual] = [bars(0), bars(1)];
  expect(quoted).toHaveLength(2);
  expect(actual[0]!.width / quoted[0]!.width).toBeCloseTo(1.5, 2);
  expect(actual[1]!.width / quoted[0]!.width).toBeCloseTo(0.5, 2);
  expect(actual[1]!.x + actual[1]!.width).toBeCloseTo(quoted[0]!.x, 1);
  expect(texts).toEqual(expect.arrayContaining(['EUR 100', 'EUR 150', 'EUR -50']));
  read(pairedBars({ groups: [], kinds: ['a'], figure, words, width }));
});

test('spreadChart(): a share of 0.5 stands halfway, and a doubling is as far as a halving where it goes by ratio', () => {
  const rows = [
    { name: 'under 0 K', figure: '0 %', middle: 0, low: 0, high: 0.3 },
    { name: '0 to 20 K', figure: '50 %', middle: 0.5, low: 0.2, high: 0.8 },
    { name: 'over', figure: '100 %', middle: 1, low: null, high: null },
    { name: 'nothing', figure: '', middle: null },
  ];
  const { middles } = read(spreadChart({ rows, from: 0, to: 1, tick: (value) => `${value * 100} %`, words, width: 340 }));
  expect(middles).toHaveLength(3);
  expect(middles[1]!.cx - middles[0]!.cx).toBeCloseTo(middles[2]!.cx - middles[1]!.cx, 1);
  const ratios = [0.5, 1, 2].map((middle) => ({ name: 'sawing', figure: 'x', middle, points: [0.1, middle, 9] }));
  const byRatio = read(spreadChart({ rows: ratios, from: 0.25, to: 4, byRatio: true, tick: String, words, width: 640 })).middles;
  expect(byRatio[1]!.cx - byRatio[0]!.cx).toBeCloseTo(byRatio[2]!.cx - byRatio[1]!.cx, 1);
});

test.each([340, 640])('loadColumns() %d wide: what is taken stands in what there is, closed days are empty', (width) => {
  const days = Array.from({ length: 28 }, (_, index) => ({
    name: index % 7 === 0 ? '30 Nov' : null,
    capacityMinutes: index % 7 > 4 ? 0 : 400,
    takenMinutes: index === 0 ? 400 : index === 1 ? 100 : 0,
  }));
  const { bars, texts } = read(
    loadColumns({ days, kinds: ['taken', 'there is'], figure: (minutes) => `${minutes / 60} h`, words, width }),
  );
  // With the swatches of the legend.
  expect(bars(1)).toHaveLength(20 + 1);
  expect(bars(0)).toHaveLength(2 + 1);
  expect(bars(0)[0]!.height / bars(0)[1]!.height).toBeCloseTo(4, 2);
  expect(bars(0)[0]).toEqual(bars(1)[0]);
  expect(texts.filter((text) => text === '30 Nov').length).toBeGreaterThan(2);
});
