import { useWords } from '../../words/words.ts';
import type { Answer, Commission, Quote } from './base-price.ts';

interface Props {
  commission: Commission;
  answer: Answer;
  taxRateFraction: number;
  /** How many the price is for, where they are a run. */
  pieces: number;
  validUntil: string | undefined;
  version: Pick<Quote, 'id' | 'number' | 'state'> | undefined;
}

/** The client's page: the lines of the letter, without one of what it costs us. */
export function OutsidePage({ commission, answer, taxRateFraction, pieces, validUntil, version }: Props) {
  const { say, money, percent } = useWords();
  const { currency, totals, sold = [] } = answer;
  const { netMinor, discountMinor, taxMinor, grossMinor, depositMinor } = totals;
  const roundingMinor = sold.find(({ kind }) => kind === 'rounding')?.netMinor ?? 0;
  const rows: Row[] = [
    ...(discountMinor !== 0 || roundingMinor !== 0
      ? [{ name: say('price.letter.price'), amount: money(netMinor - roundingMinor + discountMinor, currency) }]
      : []),
    ...(discountMinor !== 0 ? [{ name: say('price.letter.discount'), amount: money(-discountMinor, currency) }] : []),
    ...(roundingMinor !== 0 ? [{ name: say('price.letter.rounding'), amount: money(roundingMinor, currency) }] : []),
    ...(taxMinor !== 0
      ? [
          { name: say('price.letter.net'), amount: money(netMinor, currency) },
          {
            name: say('price.letter.tax', {
              percent: percent(taxRateFraction, taxRateFraction * 100 === Math.round(taxRateFraction * 100) ? 0 : 1),
            }),
            amount: money(taxMinor, currency),
          },
        ]
      : []),
    { name: say('price.letter.gross'), amount: money(grossMinor, currency), strong: true },
    ...(pieces > 1
      ? [{ name: say('price.letter.each', { pieces }), amount: money(Math.round(grossMinor / pieces), currency) }]
      : []),
    ...(depositMinor !== 0 ? [{ name: say('price.letter.deposit'), amount: money(depositMinor, currency) }] : []),
  ];
  return <Letter commission={commission} rows={rows} validUntil={validUntil} version={version} />;
}

/** The same of a version, for those who see no line of what it costs. */
export function OutsideOfVersion({ commission, version }: { commission: Commission; version: Quote }) {
  const { say, money } = useWords();
  const { net, tax, gross, deposit, run } = version;
  const shown = (name: string, amount: typeof net) => ({ name, amount: money(amount.amountMinor, amount.currency) });
  const rows: Row[] = [
    ...(tax.amountMinor === 0 ? [] : [shown(say('price.letter.net'), net), shown(say('price.letter.taxed'), tax)]),
    { ...shown(say('price.letter.gross'), gross), strong: true },
    ...(run ? [shown(say('price.letter.each', { pieces: run.pieces }), run.grossEach)] : []),
    ...(deposit.amountMinor === 0 ? [] : [shown(say('price.letter.deposit'), deposit)]),
  ];
  return <Letter commission={commission} rows={rows} validUntil={version.validUntil} version={version} />;
}

interface Row {
  name: string;
  amount: string;
  strong?: boolean;
}

function Letter({
  commission,
  rows,
  validUntil,
  version,
}: Pick<Props, 'commission' | 'validUntil' | 'version'> & { rows: readonly Row[] }) {
  const { say, date } = useWords();
  const { clientName, title, wish, quiet, quantity, dueOn } = commission;
  return (
    <section class="card outside" aria-labelledby="outside">
      <h2 id="outside">{say('price.outside')}</h2>
      <p>
        {clientName && <strong>{clientName}</strong>} {!quiet && title}
        {quantity > 1 && ` × ${quantity}`}
      </p>
      {wish && !quiet && <p class="as-typed">{wish}</p>}
      <dl class="pairs">
        {rows.map(({ name, amount, strong }) => (
          <div key={name} class={strong ? 'strong' : undefined}>
            <dt>{name}</dt>
            <dd class="figure">{amount}</dd>
          </div>
        ))}
        {dueOn && (
          <div>
            <dt>{say('price.letter.promised')}</dt>
            <dd>{date(dueOn)}</dd>
          </div>
        )}
        {validUntil && (
          <div>
            <dt>{say('price.letter.valid')}</dt>
            <dd>{date(validUntil)}</dd>
          </div>
        )}
      </dl>
      {version && <LetterLinks id={version.id} number={version.number} />}
    </section>
  );
}

/** The letter of a version to read, to print and to send. */
export function LetterLinks({ id, number }: { id: string; number: number }) {
  const { say } = useWords();
  const path = `/api/v1/documents/quote-letters/${id}`;
  return (
    <span class="letter-links">
      <a href={path} target="_blank" rel="noopener">
        {say('price.letterOf', { number })}
      </a>{' '}
      <a href={`${path}?format=pdf`} target="_blank" rel="noopener" aria-label={say('price.letterPdfOf', { number })}>
        PDF
      </a>
    </span>
  );
}
