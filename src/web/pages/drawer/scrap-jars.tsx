import { api, bodyOf } from '../../api/client.ts';
import type { ReplyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { ScrapReturn } from './scrap-return.tsx';
import { SendJar } from './send-jar.tsx';

type Jar = ReplyOf<'/api/v1/scrap-jars'>['jars'][number];

/** What each jar is expected to hold, whether it is worth sending, and what was sent. */
export function ScrapJars() {
  const { say } = useWords();
  const session = useSession();
  const loaded = useLoaded((signal) => bodyOf(api.GET('/api/v1/scrap-jars', { signal })), []);
  return (
    <section class="card" aria-labelledby="scrap">
      <h2 id="scrap">{say('scrap.title')}</h2>
      <Waiting of={loaded}>
        {({ jars }) => (
          <ul class="plain-list">
            {jars.map((jar) => (
              <JarLine key={jar.jar} jar={jar} />
            ))}
          </ul>
        )}
      </Waiting>
      {may(session, 'desk') && <Returns onSent={loaded.reload} />}
    </section>
  );
}

function JarLine({ jar: { jar, expectedFineG, pieces, advice } }: { jar: Jar }) {
  const words = useWords();
  const { say, money } = words;
  const { units } = useSession();
  return (
    <li class="line">
      <h3>{say(`scrap.jar.${jar}`)}</h3>
      <p>
        {expectedFineG === null
          ? say('scrap.unknown')
          : say('scrap.expected', { fine: showQuantity(words, units, 'mass', expectedFineG), pieces })}
      </p>
      {advice && (
        <p>
          {say('scrap.worth', {
            worth: money(advice.worth.amountMinor, advice.worth.currency),
            fees: money(advice.fees.amountMinor, advice.fees.currency),
          })}{' '}
          <strong>{say(advice.send ? 'scrap.send' : 'scrap.wait')}</strong>
        </p>
      )}
    </li>
  );
}

function Returns({ onSent }: { onSent: () => void }) {
  const { say } = useWords();
  const loaded = useLoaded(
    (signal) => bodyOf(api.GET('/api/v1/scrap-returns', { params: { query: { limit: 50 } }, signal })),
    [],
  );
  const sent = () => {
    loaded.reload();
    onSent();
  };
  return (
    <>
      <SendJar done={sent} />
      <Waiting of={loaded}>
        {({ items }) =>
          items.length > 0 && (
            <>
              <h3>{say('scrap.returns')}</h3>
              <ul class="plain-list">
                {items.map((one) => (
                  <ScrapReturn key={one.id} sent={one} done={sent} />
                ))}
              </ul>
            </>
          )
        }
      </Waiting>
    </>
  );
}
