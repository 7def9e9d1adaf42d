import { useWords } from '../../words/words.ts';
import type { Base, Moved } from './base-price.ts';
import { sayStep, sayValue, useLineWords } from './line-words.ts';
import { isUnderOne, stepsOfLine, stepsOfTotal, type Step } from './why-steps.ts';

const TOTALS = [
  'baseMinor',
  'contingencyMinor',
  'makingCostMinor',
  'makingPriceMinor',
  'netBeforeDiscountMinor',
  'discountMinor',
  'netMinor',
  'taxMinor',
  'grossMinor',
  'depositMinor',
  'balanceMinor',
  'profitMinor',
] as const;

/** The owner's page: every line of what it costs and how the price comes of it, each with its working. */
export function InsidePage({ base, now }: { base: Base; now: Moved }) {
  const words = useWords();
  const { say, named, money, percent } = words;
  const lineWords = useLineWords();
  const { currency, lines, sold = [], totals, steps } = now.answer;
  const { marginFraction, markupFraction, ofMaking } = now.profit;
  const passed = sold.filter(({ kind }) => kind === 'pass_through' || kind === 'handling');
  const share = (fraction: number | null) => (fraction === null ? '–' : percent(fraction, 1));
  const scrap = (base.version?.inside ?? base.fromBook)?.scrapKept;
  return (
    <section class="card price-part" aria-labelledby="inside">
      <h2 id="inside">{say('price.inside')}</h2>
      <p class="soft">{say('price.insideLead')}</p>
      <ul class="plain-list">
        {lines.map((line) => (
          <Worked
            key={`${line.group} ${line.label}`}
            name={lineWords(line)}
            amount={
              isUnderOne(line, base.request, steps)
                ? say('price.under', { least: money(1, currency) })
                : money(line.amountMinor, currency)
            }
            formula={say(`price.formula.${line.group as 'metal'}`)}
            steps={stepsOfLine(line, base.request, steps)}
            currency={currency}
          />
        ))}
        {passed.map(({ label, netMinor }) => (
          <Worked
            key={`sold ${label}`}
            name={say('price.passed', { name: label })}
            amount={money(netMinor, currency)}
            formula={say('price.formula.pass')}
            steps={steps.filter(({ key }) => key.startsWith(`pass.${label}.`))}
            currency={currency}
          />
        ))}
      </ul>
      <h3>{say('price.toPrice')}</h3>
      <ul class="plain-list">
        {TOTALS.map((total) => (
          <Worked
            key={total}
            name={named('price.total', total)}
            amount={money(totals[total], currency)}
            formula={say(`price.formula.${total}`)}
            steps={stepsOfTotal(total, steps)}
            currency={currency}
          />
        ))}
      </ul>
      <dl class="pairs">
        <div>
          <dt>{say('price.ofMaking')}</dt>
          <dd class="figure">
            {say('price.bothWays', { margin: share(ofMaking.marginFraction), markup: share(ofMaking.markupFraction) })}
          </dd>
        </div>
        <div>
          <dt>{say('price.ofAll')}</dt>
          <dd class="figure">{say('price.bothWays', { margin: share(marginFraction), markup: share(markupFraction) })}</dd>
        </div>
        {scrap && (
          <div>
            <dt>{say('price.scrapKept')}</dt>
            <dd class="figure">{money(scrap.worth.amountMinor, scrap.worth.currency)}</dd>
          </div>
        )}
        {base.fromBook?.fineness && (
          <div>
            <dt>{say('price.fineness')}</dt>
            <dd class="figure">
              {base.fromBook.fineness.wholeFraction === null
                ? '–'
                : new Intl.NumberFormat(words.locale, { maximumFractionDigits: 1 }).format(
                    base.fromBook.fineness.wholeFraction * 1000,
                  )}
            </dd>
          </div>
        )}
      </dl>
      <Said
        says={[...(base.fromBook?.assumes ?? []), ...(base.fromBook?.asks ?? []), ...(base.fromBook?.fineness?.says ?? [])]}
      />
    </section>
  );
}

function Said({ says }: { says: readonly string[] }) {
  const { tell } = useWords();
  return says.length === 0 ? null : (
    <ul class="soft">
      {says.map((one) => (
        <li key={one}>{tell(one)}</li>
      ))}
    </ul>
  );
}

interface WorkedProps {
  name: string;
  amount: string;
  formula: string;
  steps: readonly Step[];
  currency: string;
}

/** An amount that opens into why it is so: the rule in words, and its numbers. */
function Worked({ name, amount, formula, steps, currency }: WorkedProps) {
  const words = useWords();
  return (
    <li>
      <details class="worked">
        <summary>
          <span>{name}</span> <span class="figure">{amount}</span>
          <span class="visually-hidden">. {words.say('shell.why')}</span>
        </summary>
        <p>{formula}</p>
        <dl class="pairs">
          {steps.map((step) => (
            <div key={step.key}>
              <dt>{sayStep(words, step.key)}</dt>
              <dd class="figure">{sayValue(words, step, currency)}</dd>
            </div>
          ))}
        </dl>
      </details>
    </li>
  );
}
