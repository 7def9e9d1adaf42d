import { api, bodyOf, withVersion } from '../../api/client.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { showQuantity } from '../../units/shown-units.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import type { Stocktake } from './drawer-replies.ts';

type Trim = Stocktake['trims'][number];

/** What a count says of the trim that plans count on; offered, never taken by itself. */
export function TrimOffers({ trims }: { trims: readonly Trim[] }) {
  const session = useSession();
  const words = useWords();
  const { say, percent } = words;
  const mass = (grams: number) => showQuantity(words, session.units, 'mass', grams);
  return (
    <>
      {trims.map((trim) => (
        <section key={trim.productId} class="card">
          <p>
            {say('count.trim', {
              product: trim.product,
              used: mass(trim.usedG),
              trueUse: mass(trim.trueUseG),
              trim: percent(trim.trimFraction, 1),
              offered: percent(trim.offeredTrimFraction, 1),
            })}
          </p>
          {may(session, 'owner') && <TakeUp trim={trim} />}
        </section>
      ))}
    </>
  );
}

function TakeUp({ trim: { product, offeredTrimFraction, takeUp } }: { trim: Trim }) {
  const { say, percent } = useWords();
  const sending = useSending(async (confirming) => {
    const { version } = await withVersion(api.GET('/api/v1/settings'));
    await bodyOf(
      api.PATCH('/api/v1/settings', {
        params: { header: { 'If-Match': version } },
        body: takeUp.body as never,
        headers: confirming,
      }),
    );
  });
  return (
    <>
      <ProblemNotice error={sending.error} sending={sending} />
      <Button busy={sending.busy} onClick={() => void sending.send()}>
        {say('count.trimTake', { product, offered: percent(offeredTrimFraction, 1) })}
      </Button>
    </>
  );
}
