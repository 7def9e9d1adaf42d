import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf } from '../../api/reply.ts';
import { useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { TakeBack } from '../../ui/take-back.tsx';
import { useWords } from '../../words/words.ts';
import { SettleJar } from './settle-jar.tsx';

type Return = ItemOf<'/api/v1/scrap-returns'>;

/** One jar that was sent: what came of it, or what the refiner wrote to be typed. */
export function ScrapReturn({ sent, done }: { sent: Return; done: () => void }) {
  const words = useWords();
  const { say, named, date } = words;
  const { units } = useSession();
  const { id, number, jar, weighedG, refiner, sentOn, settlement, takenBack } = sent;
  return (
    <li class="line">
      <p>
        {say('scrap.return', {
          number,
          jar: named('scrap.jar', jar),
          quantity: showQuantity(words, units, 'mass', weighedG),
          refiner,
          date: date(sentOn),
        })}{' '}
        {takenBack && (
          <>
            <span class="word">{say('movement.wasReversed')}</span> <span class="soft">{takenBack.reason}</span>
          </>
        )}
        {!takenBack && !settlement && <span class="soft">{say('scrap.open')}</span>}
      </p>
      {settlement && <Settled settlement={settlement} />}
      {!takenBack && !settlement && <SettleJar id={id} number={number} done={done} />}
      {!takenBack && (
        <TakeBack
          key={settlement ? 'settled' : 'sent'}
          name={say(settlement ? 'scrap.settlementOf' : 'scrap.sendingOf', { number })}
          takeBack={({ reason, headers }) =>
            bodyOf(api.POST('/api/v1/scrap-returns/{id}/reversals', { params: { path: { id } }, body: { reason }, headers }))
          }
          done={done}
        />
      )}
    </li>
  );
}

function Settled({ settlement }: { settlement: NonNullable<Return['settlement']> }) {
  const words = useWords();
  const { say, money, date, percent } = words;
  const { units } = useSession();
  const { settledOn, barG, fineG, paid, fees, credit, recoveredFraction } = settlement;
  const mass = (grams: number) => showQuantity(words, units, 'mass', grams);
  const facts: [string, string | null][] = [
    [say('scrap.settledOn'), date(settledOn)],
    [say('scrap.bar'), mass(barG)],
    [say('scrap.fine'), mass(fineG)],
    [say('scrap.found'), recoveredFraction === null ? null : percent(recoveredFraction, 1)],
    [say('scrap.paid'), money(paid.amountMinor, paid.currency)],
    [say('scrap.fees'), money(fees.amountMinor, fees.currency)],
    [say('scrap.creditWord'), money(credit.amountMinor, credit.currency)],
  ];
  return (
    <dl class="pairs">
      {facts.map(
        ([word, said]) =>
          said !== null && (
            <div key={word}>
              <dt>{word}</dt>
              <dd class="figure">{said}</dd>
            </div>
          ),
      )}
    </dl>
  );
}
