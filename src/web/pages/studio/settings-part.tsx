import { useState } from 'preact/hooks';
import { api, withVersion } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import { useLoaded, type Loaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { decimalOf } from '../../units/typed-number.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { SampleOffer } from '../../ui/sample-offer.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { BenchTorch } from './bench-torch.tsx';
import { FinePrice } from './fine-price.tsx';
import { MetalPrices } from './metal-prices.tsx';
import { ProfitInput } from './profit-input.tsx';
import { SettingInput } from './setting-input.tsx';
import {
  patchOf,
  sentCoins,
  sentOfItsOwn,
  sentSetting,
  shownSetting,
  SOLDER_TRIM,
  type OwnPlace,
  type Typed,
} from './setting-values.ts';
import { SolderTrims } from './solder-trims.tsx';
import { SETTING_SECTIONS, type SettingField, type SettingKind, type Settings } from './settings-fields.ts';

interface Read {
  body: { settings: Settings };
  version: string;
}

/** What was typed, and the version it was typed over. */
interface Draft {
  version: string;
  typed: Typed;
}

/** All settings of the studio on one page; what is changed is saved in one go. */
export function SettingsPart() {
  const loaded = useLoaded<Read>((signal) => withVersion(api.GET('/api/v1/settings', { signal })), []);
  return (
    <>
      <Waiting of={loaded}>{(read) => <Form read={read} loaded={loaded} />}</Waiting>
      <SampleOffer />
    </>
  );
}

function Form({ read: { body, version }, loaded }: { read: Read; loaded: Loaded<Read> }) {
  const { say, locale } = useWords();
  const session = useSession();
  const [saved, setSaved] = useState(false);
  const { draft, isChanged, change, drop } = useDraft<Draft>('settings', { version, typed: {} });
  const { settings } = body;
  const sending = useSending(async (confirming) => {
    const params = { header: { 'If-Match': draft.version, ...confirming } };
    const after = await withVersion(api.PATCH('/api/v1/settings', { params, body: patchFrom(draft.typed, settings.currency) }));
    drop();
    loaded.put(after);
    setSaved(true);
    // The name, the currency and the units of the studio stand on other pages too.
    session.reload();
  });
  const newest = useSending(async () => {
    const now = await withVersion(api.GET('/api/v1/settings'));
    loaded.put(now);
    change({ version: now.version, typed: draft.typed });
    sending.clear();
  });
  const type = (path: string, value: unknown) => {
    setSaved(false);
    change({ version: isChanged ? draft.version : version, typed: { ...draft.typed, [path]: value } });
  };
  const own: OwnPlace = { settings, typed: draft.typed, type, error: sending.error };
  const isStale = sending.error instanceof ApiProblem && sending.error.slug === 'stale';
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void sending.send();
      }}
    >
      <section class="card" aria-labelledby="prices">
        <h2 id="prices">{say('settings.prices')}</h2>
        <FinePrice {...own} />
        <MetalPrices {...own} />
      </section>
      {SETTING_SECTIONS.map(({ name, fields }) => (
        <section key={name} class="card" aria-labelledby={`of-${name}`}>
          <h2 id={`of-${name}`}>{say(`settings.${name}`)}</h2>
          {name === 'offer' && <ProfitInput {...own} />}
          {name === 'bench' && <BenchTorch {...own} />}
          <div class="columns">
            {fields.map((field) => (
              <SettingInput
                key={field.path}
                field={field}
                value={draft.typed[field.path] ?? shownSetting(settings, field, locale)}
                onValue={(value) => type(field.path, value)}
                error={sending.error}
              />
            ))}
          </div>
          {name === 'stock' && <SolderTrims {...own} />}
        </section>
      ))}
      <div class={isChanged || sending.error ? 'save-bar' : ''}>
        {isStale ? (
          <div class="notice notice-problem" role="alert">
            <p>{say('settings.stale')}</p>
            <Button busy={newest.busy} onClick={() => void newest.send()}>
              {say('settings.newest')}
            </Button>
          </div>
        ) : (
          <ProblemNotice error={sending.error} sending={sending} />
        )}
        <div class="row">
          <span role="status">
            {saved ? say('settings.saved') : say('settings.changed', { count: Object.keys(draft.typed).length })}
          </span>
          <Button type="submit" kind="main" busy={sending.busy} disabled={!isChanged}>
            {say('shell.save')}
          </Button>
          {isChanged && (
            <Button
              onClick={() => {
                drop();
                sending.clear();
              }}
            >
              {say('shell.draftDrop')}
            </Button>
          )}
        </div>
      </div>
    </form>
  );
}

const METAL_PRICE = 'metalPrices/';
const FIELDS = new Map<string, SettingField>(
  SETTING_SECTIONS.flatMap(({ fields }) => fields.map((field) => [field.path, field])),
);

function patchFrom(typed: Typed, currency: string): Record<string, never> {
  const sent: Record<string, unknown> = {};
  const metalPrices: Record<string, unknown> = {};
  const solderTrims: Record<string, unknown> = {};
  for (const [path, value] of Object.entries(typed)) {
    const field = FIELDS.get(path);
    if (field) sent[path] = field.optional && value === '' ? null : sentBy(field.kind, value, currency);
    else if (path.startsWith(SOLDER_TRIM)) solderTrims[path.slice(SOLDER_TRIM.length)] = trimSent(value);
    else if (path.startsWith(METAL_PRICE)) metalPrices[path.slice(METAL_PRICE.length)] = priceSent(value);
    else sent[path] = sentOfItsOwn(path, value);
  }
  const patch = {
    ...patchOf(sent),
    ...(Object.keys(metalPrices).length > 0 && { metalPrices }),
    ...(Object.keys(solderTrims).length > 0 && { solderTrims }),
  };
  // It is a merge patch of many shapes: the server says what of it does not fit.
  return patch as Record<string, never>;
}

const sentBy = (kind: SettingKind, value: unknown, currency: string): unknown =>
  kind === 'coins' ? sentCoins(value, currency) : sentSetting(value, kind);

/** Without one the usual share holds. */
function trimSent(typed: unknown): unknown {
  return typeof typed === 'string' && typed.trim() !== '' ? sentSetting(typed, 'percent') : null;
}

function priceSent(typed: unknown): unknown {
  const price = typed as { amount: string; per: string } | null;
  return price && { ...price, amount: decimalOf(price.amount.trim()) };
}
