import { CAUTIONS, type Caution, type CautionId } from './caution-table.ts';

/** How a bath stands, as its life cycle has it. */
export type BathStands = 'fresh' | 'in_use' | 'tiring' | 'fouled' | 'spent' | 'neutralised' | 'gone';

/** Work goes into it: hot metal, warm acid, iron, other baths beside it. */
const WORKED: readonly CautionId[] = ['C12', 'C13', 'C14', 'C18'];
/** It is made harmless and taken away. */
const RENEWED: readonly CautionId[] = ['C13', 'C15'];

const SHOWN: Readonly<Record<BathStands, readonly CautionId[]>> = {
  fresh: WORKED,
  in_use: WORKED,
  tiring: [...WORKED, 'C15'],
  fouled: [...WORKED, 'C15'],
  spent: RENEWED,
  neutralised: ['C15'],
  gone: [],
};

/** The cautions of a pickle bath as it stands, in the order of the table. */
export function bathCautions(state: BathStands): Caution[] {
  return CAUTIONS.filter(({ id }) => SHOWN[state].includes(id));
}
