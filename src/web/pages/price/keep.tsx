import { useRef, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import { useSending } from '../../api/use-sending.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import type { Base, Commission, Version } from './base-price.ts';
import { givenBack, leavesOf, overTyped } from './typed-changes.ts';

interface Props {
  commission: Commission;
  base: Base;
  overrides: Record<string, unknown>;
  /** Something typed cannot be read yet. */
  blocked: boolean;
  kept: (version: Version) => void;
}

/** Keeps the price as a sketch: the one it began from, or the next version. */
export function Keep({ commission, base: { version }, overrides, blocked, kept }: Props) {
  const { say } = useWords();
  const [validUntil, setValidUntil] = useState(version?.validUntil ?? '');
  const isSketch = version?.state === 'sketch';
  const dated = validUntil === '' || validUntil === version?.validUntil ? {} : { validUntil };
  const asNext = useSending(async (confirming) => {
    const body = version
      ? { commissionId: commission.id, from: version.id, overrides: overTyped(overrides), ...dated }
      : { commissionId: commission.id, overrides, ...dated };
    kept(await bodyOf(api.POST('/api/v1/quotes', { body, headers: { 'idempotency-key': idempotencyKey(), ...confirming } })));
  });
  const change = async (patch: Record<string, unknown>, confirming: Record<string, string>) => {
    const { id, version: seen } = version!;
    const params = { path: { id }, header: { 'If-Match': `"${seen}"` } };
    kept(await bodyOf(api.PATCH('/api/v1/quotes/{id}', { params, body: { overrides: patch, ...dated }, headers: confirming })));
  };
  const inPlace = useSending((confirming) => change(overTyped(overrides), confirming));
  return (
    <section class="card" aria-labelledby="keep">
      <h2 id="keep">{say('price.keepTitle')}</h2>
      <div class="row">
        <Field
          label={say('price.validUntil')}
          type="date"
          value={validUntil}
          onValue={setValidUntil}
          hint={version ? undefined : say('price.validHint')}
          error={inPlace.error ?? asNext.error}
          pointer="/validUntil"
        />
        {isSketch && (
          <Button kind="main" busy={inPlace.busy} disabled={blocked} onClick={() => void inPlace.send()}>
            {say('price.keepIn', { number: version.number })}
          </Button>
        )}
        <Button kind={isSketch ? 'plain' : 'main'} busy={asNext.busy} disabled={blocked} onClick={() => void asNext.send()}>
          {say(version ? 'price.keepNext' : 'price.keep')}
        </Button>
      </div>
      {isSketch && <p class="soft">{say('price.keepBook')}</p>}
      <ProblemNotice error={inPlace.error} sending={inPlace} />
      <ProblemNotice error={asNext.error} sending={asNext} />
      {version && <TypedBefore version={version} change={change} />}
    </section>
  );
}

/** What was typed for a version in place of the book's numbers; of a sketch each can be given back. */
function TypedBefore({
  version,
  change,
}: {
  version: NonNullable<Base['version']>;
  change: (patch: Record<string, unknown>, confirming: Record<string, string>) => Promise<void>;
}) {
  const { say } = useWords();
  const back = useRef<readonly string[]>([]);
  const giving = useSending((confirming) => change(givenBack(back.current), confirming));
  const leaves = leavesOf(version.inside?.overrides).slice(0, 40);
  if (leaves.length === 0) return null;
  return (
    <details>
      <summary>{say('price.typedBefore')}</summary>
      <ul class="plain-list">
        {leaves.map(({ path, value }) => (
          <li key={path.join('.')} class="line">
            {path.join(', ')}: {typeof value === 'string' ? value : JSON.stringify(value)}{' '}
            {version.state === 'sketch' && (
              <Button
                kind="quiet"
                busy={giving.busy}
                aria-label={say('price.giveBackNamed', { name: path.join(', ') })}
                onClick={() => {
                  back.current = path;
                  void giving.send();
                }}
              >
                {say('price.giveBack')}
              </Button>
            )}
          </li>
        ))}
      </ul>
      <ProblemNotice error={giving.error} sending={giving} />
    </details>
  );
}
