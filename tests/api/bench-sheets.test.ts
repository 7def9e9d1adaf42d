import { expect, test } from 'vitest';
import { aDrawer, aDrawnPiece, planInUse, type Heat } from '../support/at-the-bench.ts';
import { readSvg } from '../support/drawn-svg.ts';
import { pendantPlan } from '../support/pendant.ts';
import { getPdf, wordsOf } from '../support/read-pdf.ts';
import { startApp } from '../support/start-app.ts';

async function aPlannedPendant({ kind = 'one_off' }: { kind?: string } = {}) {
  const app = await startApp();
  await aDrawer(app);
  const piece = await aDrawnPiece(app, kind === 'one_off' ? {} : { kind, clientId: undefined });
  const { plan, heats } = await planInUse(app.bench, piece.id);
  return { ...app, piece, plan, heats };
}

const sheetOf = (id: string) => `/documents/bench-sheets/${id}`;
const studentSheetOf = (id: string) => `/documents/student-sheets/${id}`;

test('the bench sheet says heat by heat what is done, with what, and what is predicted of the joints made before', async () => {
  const { bench, plan, piece, heats, baseUrl } = await aPlannedPendant();
  const { text: html } = await bench
    .get(sheetOf(plan.id))
    .expect(200)
    .expect('content-type', /^text\/html/);
  const words = wordsOf(html);
  const pdf = await getPdf(bench, sheetOf(plan.id));
  for (const said of [words, pdf.text]) {
    expect(said).toContain(`Bench sheet ${piece.number}: Pendant`);
    expect(said).toContain('This is plan version 1. If that is not the version in use, throw this sheet away.');
    expect(said).toContain(`${baseUrl}/pieces/${piece.id}`);
    // Solder by its product, lot and mark; the peak in both scales and as a colour.
    expect(said).toMatch(/hard wire \(hard, flows at 788 °C\)/);
    expect(said).toMatch(/Lot L\d+, marked H/);
    expect(said).toMatch(/798 °C \/ 1,468 °F: dark red; about \d+ s/);
    expect(said).toMatch(/\d+ pieces?, [\d.]+ mg in all/);
    expect(said).toContain('Black heat, quench in water, pickle, rinse, look');
    // 0.8 mm sheet is between gauge 20 (0.81 mm) and 21 (Brown & Sharpe).
    expect(said).toMatch(/backplate Sterling silver, 925 parts in 1000 30 × 20 × 0\.8 20\.1 AWG/);
    expect(said).toContain('Read before the flame');
    expect(said).toContain('In an emergency call your local emergency number.');
    expect(said.match(/Done ☐ By Note/g)).toHaveLength(heats.length);
  }
  const shown = await bench.get(`/heats/${heats[3]!.id}`).expect(200);
  const { earlierJoints } = shown.body.expected as { earlierJoints: { joint: string; verdict: string }[] };
  expect(earlierJoints.length).toBeGreaterThan(1);
  for (const { joint } of earlierJoints)
    expect(words).toMatch(new RegExp(`\\d ${joint}: (predicted to stay solid|may soften|softens|liquid|may run|runs)`));
  for (const { id } of shown.body.cautions as { id: string }[]) expect(words).toMatch(new RegExp(`${id}( H[\\d, ]+)? [A-Z]`));
});

test('the drawing on it has the number of every joint and no other word, and the square leads to the piece', async () => {
  const { bench, plan } = await aPlannedPendant();
  const { text: html } = await bench.get(sheetOf(plan.id)).expect(200);
  const svgs = [...html.matchAll(/<svg[\s\S]*?<\/svg>/g)].map(([svg]) => svg);
  expect(svgs).toHaveLength(2);
  const { texts } = readSvg(svgs[1]!);
  expect(texts.filter((text) => /^\d+$/.test(text)).toSorted()).toEqual(['1', '2', '3', '4']);
  expect(texts.filter((text) => !/^\d+$/.test(text))).toEqual([expect.stringMatching(/^\d+ mm$/)]);
  // Black on white alone, and nothing of the reader's or anybody's machine is asked for.
  expect(html.match(/#[0-9a-f]{3,6}\b/gi)!.every((colour) => ['#000', '#fff'].includes(colour))).toBe(true);
  expect(html).not.toMatch(/<script|<link|<img|url\(/);
});

test('what is read at the fire is set in 14 points or more', async () => {
  const { bench, plan } = await aPlannedPendant();
  const { text: html } = await bench.get(sheetOf(plan.id)).expect(200);
  expect(html).toMatch(/section\.step \{[^}]*font-size: 14pt/);
  expect(html.match(/<section class="step">/g)!.length).toBe(pendantPlan.heats.length + 1);
});

test('a plan not in use says so, one not checked is not printed, and letter paper is letter paper', async () => {
  const { bench, owner, piece } = await aPlannedPendant();
  const draft = (await bench.post(`/pieces/${piece.id}/plans`, { plan: pendantPlan }).expect(201)).body as {
    id: string;
    number: number;
  };
  const { text } = await bench.get(sheetOf(draft.id)).expect(200);
  expect(wordsOf(text)).toContain(`This is plan version ${draft.number}.`);
  expect(wordsOf(text)).toContain('Not in use yet: nothing is heated by this sheet.');
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { papers: { size: 'letter' }, bookAddress: 'http://bench.example:3047' }, version).expect(200);
  expect((await bench.get(sheetOf(draft.id)).expect(200)).text).toContain('@page { size: letter }');
  const pdf = await getPdf(bench, sheetOf(draft.id));
  expect(pdf.bytes.toString('latin1')).toContain('/MediaBox [0 0 612 792]');
  expect(pdf.text).toContain(`http://bench.example:3047/pieces/${piece.id}`);
});

test('the sheets are in the language of who asks', async () => {
  const { bench, desk, plan } = await aPlannedPendant();
  await bench.put('/preferences', { language: 'de', units: null }, 1).expect(200);
  const { text } = await bench.get(sheetOf(plan.id)).expect(200);
  expect(text).toContain('<html lang="de">');
  const words = wordsOf(text);
  for (const part of [
    'Werkstattblatt',
    'Lötstelle',
    'fließt bei 788 °C',
    'dunkelrot',
    'Vor der Flamme lesen',
    'Haare gebunden',
    'Notrufnummer',
  ])
    expect(words).toContain(part);
  expect(words).not.toMatch(/ (the|and|before) /);
  expect(wordsOf((await desk.get(sheetOf(plan.id)).expect(200)).text)).toContain('Bench sheet');
  expect((await getPdf(bench, sheetOf(plan.id))).text).toContain('Werkstattblatt');
});

test('the student sheet asks, and tells nothing of the answer', async () => {
  const { student, bench, plan, piece, heats } = await aPlannedPendant({ kind: 'teaching_piece' });
  const { text } = await student.get(studentSheetOf(plan.id)).expect(200);
  const pdf = await getPdf(student, studentSheetOf(plan.id));
  const shown = (await bench.get(`/heats/${heats[3]!.id}`).expect(200)).body as Heat;
  const { earlierJoints } = shown['expected'] as { earlierJoints: { joint: string; says: string }[] };
  for (const said of [wordsOf(text), pdf.text]) {
    expect(said).toContain(`Student sheet ${piece.number}`);
    for (const { joint } of earlierJoints)
      expect(said).toMatch(
        new RegExp(`\\d ${joint} \\((hard|medium|easy), melts from \\d+ °C to \\d+ °C\\): ☐ stays solid ☐ softens ☐ runs`),
      );
    expect(said).toContain('Tutor’s yes');
    expect(said).toContain('no earlier joint is in the fire');
    expect(said).toContain('No flame without a tutor’s yes');
    for (const answer of [
      'predicted to stay solid',
      'may soften',
      'may run',
      'past where',
      'short of',
      'do not touch',
      'give or take',
    ])
      expect([answer, said.includes(answer)]).toEqual([answer, false]);
  }
  await student.get(sheetOf(plan.id)).expect(403);
});

test('a student prints no sheet of a piece that is none of theirs', async () => {
  const { student, plan } = await aPlannedPendant();
  await student.get(studentSheetOf(plan.id)).expect(404);
});
