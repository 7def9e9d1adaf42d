import { useRef } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { idempotencyKey } from '../../api/device.ts';
import type { BodyOf } from '../../api/reply.ts';
import { useLoaded } from '../../api/use-loaded.ts';
import { useSending } from '../../api/use-sending.ts';
import { useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { Field, Select, TextArea } from '../../ui/field.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useDraft } from '../../ui/use-draft.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';

type NewLetter = BodyOf<'/api/v1/client-letters', 'post'>;

const KINDS = ['new_date', 'balance_reminder', 'collection_notice', 'other'] as const;
const HOW = ['email', 'post', 'phone', 'in_person'] as const;

/** One thing that was said, by us or by the client. */
interface Said {
  id: string;
  /** RFC 3339, or a day. */
  at: string;
  who: string;
  words: string | null;
}

/** What the client was written and told, and what they wrote on their own page; newest first. */
export function ClientTalk({ commissionId }: { commissionId: string }) {
  const { say, named, date, moment } = useWords();
  const { studio } = useSession();
  const loaded = useLoaded((signal) => saidIn(commissionId, signal), [commissionId]);
  return (
    <section class="card" aria-labelledby="client-talk">
      <h2 id="client-talk">{say('talk.title')}</h2>
      <Waiting of={loaded}>
        {({ letters, messages }) => {
          const said: Said[] = [
            ...letters.map(({ id, kind, how, sentOn, note }) => ({
              id,
              at: sentOn,
              who: say('talk.letter', { what: named('talk.kind', kind), how: named('talk.how', how), date: date(sentOn) }),
              words: note,
            })),
            ...messages.map(({ id, words, createdAt: at }) => ({
              id,
              at,
              who: say('talk.message', { at: moment(at, studio.timeZone) }),
              words,
            })),
          ].toSorted((a, b) => b.at.localeCompare(a.at));
          return said.length === 0 ? (
            <p>{say('talk.none')}</p>
          ) : (
            <ul class="plain-list">
              {said.map(({ id, who, words }) => (
                <li key={id} class="line">
                  <strong>{who}</strong>
                  {words && <p class="as-typed">{words}</p>}
                </li>
              ))}
            </ul>
          );
        }}
      </Waiting>
      <NoteLetter commissionId={commissionId} done={loaded.reload} />
    </section>
  );
}

async function saidIn(commissionId: string, signal: AbortSignal) {
  const params = { query: { commissionId, limit: 100 } };
  const [letters, messages] = await Promise.all([
    bodyOf(api.GET('/api/v1/client-letters', { params, signal })),
    bodyOf(api.GET('/api/v1/client-messages', { params, signal })),
  ]);
  return { letters: letters.items, messages: messages.items };
}

type LetterDraft = Pick<NewLetter, 'kind' | 'how'> & { sentOn: string; note: string };

/** Notes a letter that went out, a call, or what was said over the counter. */
function NoteLetter({ commissionId, done }: { commissionId: string; done: () => void }) {
  const { say, named } = useWords();
  const { draft, isChanged, change, drop } = useDraft<LetterDraft>(`client-letter:${commissionId}`, {
    kind: 'other',
    how: 'phone',
    sentOn: '',
    note: '',
  });
  const set = (part: Partial<typeof draft>) => change({ ...draft, ...part });
  const key = useRef(idempotencyKey());
  const sending = useSending(async (confirming) => {
    const { kind, how, sentOn, note } = draft;
    const body = { commissionId, kind, how, note: note.trim() || null, ...(sentOn !== '' && { sentOn }) };
    const headers = { 'idempotency-key': key.current, ...confirming };
    await bodyOf(api.POST('/api/v1/client-letters', { body, headers }));
    key.current = idempotencyKey();
    drop();
    done();
  });
  const { error } = sending;
  return (
    <details open={isChanged || undefined}>
      <summary>{say('talk.note')}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void sending.send();
        }}
      >
        <div class="columns">
          <Select
            label={say('talk.what')}
            value={draft.kind}
            onValue={(kind) => set({ kind: kind as NewLetter['kind'] })}
            choices={KINDS.map((value) => ({ value, label: named('talk.kind', value) }))}
          />
          <Select
            label={say('talk.howWord')}
            value={draft.how}
            onValue={(how) => set({ how: how as NewLetter['how'] })}
            choices={HOW.map((value) => ({ value, label: named('talk.how', value) }))}
          />
          <Field
            label={say('talk.on')}
            hint={say('payment.todayHint')}
            type="date"
            value={draft.sentOn}
            onValue={(sentOn) => set({ sentOn })}
            error={error}
            pointer="/sentOn"
          />
        </div>
        <TextArea
          label={say('talk.words')}
          value={draft.note}
          onValue={(note) => set({ note })}
          error={error}
          pointer="/note"
          maxLength={400}
        />
        <ProblemNotice error={error} sending={sending} />
        <div class="row">
          <Button type="submit" kind="main" busy={sending.busy}>
            {say('talk.save')}
          </Button>
          {isChanged && <Button onClick={drop}>{say('shell.draftDrop')}</Button>}
        </div>
      </form>
    </details>
  );
}
