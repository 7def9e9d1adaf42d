import { countOf, pieceWeight } from '../../../shared/forms/piece-weight.ts';
import type { Design, Part } from '../../../shared/design/design.ts';
import { drawDesign } from '../../../shared/drawing/draw-design.ts';
import { sizeAsDrawn } from '../../../shared/drawing/size-as-drawn.ts';
import { getMetal } from '../../../shared/materials/metal.ts';
import type { Db } from '../../platform/db/client.ts';
import { currentDesign, livePiecesOf, type PieceRow } from '../pieces/index.ts';
import { fact, type Frame } from './frame.ts';
import type { Block, Fact } from './paper.ts';
import type { Wording } from './wording.ts';

/** Pieces that were drawn alike are told of once. */
interface Alike {
  title: string;
  count: number;
  design: Design | undefined;
}

export function alikePieces(db: Db, commissionId: string): Alike[] {
  const kinds = new Map<string, Alike>();
  for (const piece of livePiecesOf(db, commissionId)) {
    const design = currentDesign(db, piece.id)?.body;
    const key = JSON.stringify([piece.title, design]);
    const known = kinds.get(key);
    if (known) known.count++;
    else kinds.set(key, { title: piece.title, count: 1, design });
  }
  return [...kinds.values()];
}

/** Metal, size and weight of one piece, as far as its design tells. */
export function pieceFacts(design: Design | undefined, { wording, commission }: Pick<Frame, 'wording' | 'commission'>): Fact[] {
  if (!design) return [];
  const size = sizeAsDrawn(design);
  const { say, grams, number } = wording;
  return [
    ...fact(say('label.metal'), metalsOf(design.parts, wording).join('\n')),
    ...fact(say('label.size'), size && `${number(size.widthMm, 1)} × ${number(size.heightMm, 1)} mm`),
    ...fact(say(commission.quantity > 1 ? 'label.weight_each' : 'label.weight'), grams(pieceWeight(design).totalG)),
  ];
}

/** The metals of the parts, each once, the heaviest first. */
export function metalsOf(parts: readonly Part[], wording: Wording): string[] {
  const { parts: weighed } = pieceWeight({ parts });
  const byMass = parts.toSorted((a, b) => massOf(b) - massOf(a));
  return [...new Set(byMass.map(({ metal }) => metalInWords(metal, wording)))];

  function massOf({ id, count = 1 }: Part): number {
    return weighed.find(({ part }) => part === id)!.massG / countOf({ id, count });
  }
}

function metalInWords(metal: Part['metal'], { metal: known, say, number }: Wording): string {
  const { id, name, finenessFraction } = getMetal(metal);
  const words = typeof metal === 'string' ? known(id) : undefined;
  if (words !== undefined) return words;
  return finenessFraction > 0 ? say('metal.of', { name, thousandths: number(finenessFraction * 1000, 0) }) : name;
}

/** The metal a piece is mainly made of. */
export function mainMetal(db: Db, piece: PieceRow, wording: Wording): string {
  const design = currentDesign(db, piece.id)?.body;
  const known = wording.metal(piece.metal);
  if (known !== undefined) return known;
  return (design && metalsOf(design.parts, wording)[0]) ?? piece.metal;
}

export function drawingOf(design: Design, caption: string): Block {
  const words = { title: caption, description: caption };
  return { kind: 'drawing', svg: drawDesign(design, { words, labelled: false }), caption };
}
