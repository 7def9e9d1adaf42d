import type { BathRow } from '../baths/index.ts';
import type { Wording } from '../documents/index.ts';
import type { LotRow, SolderProductRow } from '../stock/index.ts';
import { line, strong, type LabelLine } from './label.ts';

/** Of a lot of solder: what it is, its mark, its own two temperatures, until when, and what stands in the way of a heat. */
export function lotLines({ say, day }: Wording, lot: LotRow, product: SolderProductRow): LabelLine[] {
  const { gradeWord, name, solidusC, liquidusC, leadOrTinStanding } = product;
  const { markOnMetal, useBy, cadmiumStanding } = lot;
  const isNamed = name.toLowerCase().includes(gradeWord.toLowerCase());
  return [
    strong(isNamed ? name : `${gradeWord}: ${name}`, 1.3),
    strong(
      [say('tag.lot', { number: lot.number }), ...(markOnMetal === null ? [] : [say('tag.mark', { mark: markOnMetal })])].join(
        ', ',
      ),
    ),
    line(say('tag.window', { solidus: solidusC, liquidus: liquidusC })),
    ...(useBy === null ? [] : [line(say('tag.use_by', { date: day(useBy) }))]),
    cadmiumStanding === 'no' ? line(say('tag.cadmium_no')) : strong(say(`tag.cadmium_${cadmiumStanding}`)),
    ...(leadOrTinStanding === 'no' ? [] : [strong(say(`tag.lead_${leadOrTinStanding}`))]),
  ];
}

/** Of a pickle bath: what is in it, since when, and what must not get into it. */
export function bathLines({ say, day, number: figure }: Wording, bath: BathRow): LabelLine[] {
  return [
    strong(say('tag.bath', { number: bath.number }), 1.2),
    line(`${say(`acid.${bath.acid}`)}, ${say('tag.strength', { strength: figure(bath.strengthGPerL, 0) })}`),
    line(say('tag.opened', { date: day(bath.openedOn) })),
    strong(say('tag.no_iron'), 1.3),
    line(say('tag.not_food')),
  ];
}

/** Of a piece: numbers and a date, and nothing of whose it is, what it is for or what it costs. */
export function pieceLines(
  { say, day }: Wording,
  { number, commission }: { number: string; commission: { number: string; dueOn: string | null } },
): LabelLine[] {
  return [
    strong(number, 1.8),
    line(say('tag.commission', { number: commission.number })),
    ...(commission.dueOn === null ? [] : [line(say('tag.due', { date: day(commission.dueOn) }))]),
  ];
}
