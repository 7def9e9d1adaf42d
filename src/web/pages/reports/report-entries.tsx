import { useState } from 'preact/hooks';
import { useLoaded } from '../../api/use-loaded.ts';
import { Waiting } from '../../ui/waiting.tsx';
import { useWords } from '../../words/words.ts';
import { readEntry, type EntryKind } from './read-entry.ts';

/** Of each kind so many are read at most: a report may stand on thousands. */
const MOST = 12;

/** What a row was counted from, read when somebody asks. */
export function ReportEntries({ row }: { row: unknown }) {
  const { say } = useWords();
  const [open, setOpen] = useState(false);
  const groups = entriesOf(row);
  const count = groups.reduce((sum, { ids }) => sum + ids.length, 0);
  if (count === 0) return <>–</>;
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('report.entryCount', { count })}</summary>
      {open && groups.map(({ kind, ids }) => <Entries key={kind} kind={kind} ids={ids} />)}
    </details>
  );
}

function Entries({ kind, ids }: { kind: EntryKind; ids: readonly string[] }) {
  const words = useWords();
  const { say } = words;
  const loaded = useLoaded(
    async (signal) => {
      const read = await Promise.allSettled(ids.slice(0, MOST).map((id) => readEntry(kind, { id, signal, words })));
      return read.flatMap((one) => (one.status === 'fulfilled' && one.value !== null ? [one.value] : []));
    },
    [kind, ids.join(' ')],
  );
  return (
    <>
      <h3>
        {say(`report.entry.${kind}`)} ({ids.length})
      </h3>
      <Waiting of={loaded}>
        {(entries) => (
          <ul class="plain-list">
            {entries.map(({ id, text, href }) => (
              <li key={id}>{href ? <a href={href}>{text}</a> : text}</li>
            ))}
            {entries.length > 0 && ids.length > entries.length && (
              <li class="soft">{say('report.entriesMore', { count: ids.length - entries.length })}</li>
            )}
          </ul>
        )}
      </Waiting>
    </>
  );
}

const KINDS: readonly EntryKind[] = [
  'commission',
  'piece',
  'quote',
  'benchTime',
  'movement',
  'packet',
  'heat',
  'incident',
  'letter',
  'payment',
  'plan',
  'guess',
];

/** A row's ids by what they are of: heatIds, quoteId and the like. */
export function entriesOf(row: unknown): { kind: EntryKind; ids: readonly string[] }[] {
  const entries = (row as { entries?: Readonly<Record<string, unknown>> }).entries ?? {};
  const records = (row as { records?: readonly { commissionId: string }[] }).records ?? [];
  return KINDS.flatMap((kind) => {
    const one = entries[`${kind}Id`];
    const many = (entries[`${kind}Ids`] ?? []) as readonly string[];
    const own = kind === 'commission' ? records.map(({ commissionId }) => commissionId) : [];
    const ids = [...new Set([...(typeof one === 'string' ? [one] : []), ...many, ...own])];
    return ids.length === 0 ? [] : [{ kind, ids }];
  });
}
