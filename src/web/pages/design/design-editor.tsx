import { useMemo, useState } from 'preact/hooks';
import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import type { ItemOf, ReplyOf } from '../../api/reply.ts';
import { useSending } from '../../api/use-sending.ts';
import { may, useSession } from '../../session/session.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { showQuantity } from '../../units/shown-units.ts';
import { useWords } from '../../words/words.ts';
import { DesignContext, useDesign, type Picking } from './design-context.ts';
import { refusalsUnder } from './design-fields.tsx';
import type { Draft } from './draft.ts';
import { ContactList } from './contact-list.tsx';
import { DrawingBoard } from './drawing-board.tsx';
import { Examples } from './examples.tsx';
import { JointList } from './joint-list.tsx';
import { PartList } from './part-list.tsx';
import { RuleList } from './rule-list.tsx';
import { useDesignDraft, type DesignDraft } from './use-design-draft.ts';
import { useUndoKeys } from './use-undo-keys.ts';
import { weighDraft, type MetalOfBook } from './weigh-draft.ts';

/** A version as the server keeps it. */
export type StoredDesign = { number: number; entered: unknown } & Record<'parts' | 'joints', unknown> & {
    contacts?: unknown;
    rules?: unknown;
  };

interface Props {
  piece: ReplyOf<'/api/v1/pieces/{id}'>;
  stored: { number: number; draft: Draft };
  metals: readonly MetalOfBook[];
  solders: readonly ItemOf<'/api/v1/solder-products'>[];
  /** Asks for the saved version again. */
  again: () => void;
  saved: (design: StoredDesign) => void;
}

/** The design at work: every change is kept here at once, and saved as a version when it is said so. */
export function DesignEditor({ piece, stored, metals, solders, again, saved }: Props) {
  const session = useSession();
  const work = useDesignDraft(piece.id, stored);
  const [looksAtTheirs, setLooksAtTheirs] = useState(false);
  const [picking, pick] = useState<Picking>();
  const [opened, open] = useState<string>();
  useUndoKeys(work);
  const sending = useSending(async (confirming) => {
    const { base, draft: sent } = work.latest.current;
    try {
      const design = await bodyOf(
        api.PUT('/api/v1/pieces/{id}/design', {
          params: { path: { id: piece.id } },
          headers: { ...confirming, ...(base > 0 && { 'if-match': `"${base}"` }) },
          body: sent as never,
        }),
      );
      work.saved(sent, design.number);
      saved(design);
    } catch (error) {
      // Somebody was quicker: their version is fetched, and what is to become of this one is asked.
      if (error instanceof ApiProblem && [412, 428].includes(error.body.status)) again();
      throw error;
    }
  });
  const showsTheirs = looksAtTheirs && work.isBehind;
  const readOnly = showsTheirs || !may(session, 'bench', 'desk');
  const draft = showsTheirs ? stored.draft : work.draft;
  const context = useMemo(
    () => ({ draft, error: sending.error, readOnly, metals, solders, edit: work.edit, picking, pick, opened, open }),
    [draft, sending.error, readOnly, metals, solders, picking, opened],
  );
  return (
    <DesignContext.Provider value={context}>
      {work.isBehind ? (
        <Behind
          {...{ work, number: stored.number, looksAtTheirs, setLooksAtTheirs }}
          layOver={() => {
            setLooksAtTheirs(false);
            work.layOver();
            void sending.send();
          }}
        />
      ) : (
        <ProblemNotice error={sending.error} sending={sending} />
      )}
      <Bar {...{ work, readOnly, draft, metals }} busy={sending.busy} save={() => void sending.send()} version={stored.number} />
      {!readOnly && <Examples />}
      <fieldset disabled={readOnly} key={String(showsTheirs)}>
        <div class="design-board">
          <DrawingBoard />
          <div>
            <PartList metal={piece.metal} />
            <JointList />
            <ContactList />
            <RuleList />
          </div>
        </div>
      </fieldset>
    </DesignContext.Provider>
  );
}

interface BarProps {
  work: DesignDraft;
  draft: Draft;
  readOnly: boolean;
  metals: readonly MetalOfBook[];
  busy: boolean;
  version: number;
  save: () => void;
}

/** What it weighs, whether it is saved, and every step to take back. */
function Bar({ work, draft, readOnly, metals, busy, version, save }: BarProps) {
  const words = useWords();
  const { say } = words;
  const { units } = useSession();
  const { totalG, open } = weighDraft(draft, metals);
  const refused = refusalsUnder(useDesign().error, '').length;
  return (
    <section class="card row design-bar" aria-label={say('design.whole')}>
      <p class="figure">
        <strong>{say('design.weight', { weight: showQuantity(words, units, 'mass', totalG) })}</strong>
        {open > 0 && <span class="soft"> {say('design.notWeighed', { count: open })}</span>}
      </p>
      {refused > 0 && work.isChanged && <span class="word word-runs">{say('design.refused', { count: refused })}</span>}
      <p class="soft" role="status">
        {work.isChanged ? say('design.changed') : version === 0 ? say('design.none') : say('design.version', { number: version })}
      </p>
      {readOnly ? (
        <p>{say('design.readOnly')}</p>
      ) : (
        <>
          <Button disabled={!work.undo} title={say('design.undoKey')} onClick={() => work.undo?.()}>
            {say('design.undo')}
          </Button>
          <Button disabled={!work.redo} title={say('design.redoKey')} onClick={() => work.redo?.()}>
            {say('design.redo')}
          </Button>
          <Button kind="main" busy={busy} disabled={!work.isChanged || work.isBehind} onClick={save}>
            {say('design.save')}
          </Button>
        </>
      )}
    </section>
  );
}

interface BehindProps {
  work: DesignDraft;
  number: number;
  looksAtTheirs: boolean;
  setLooksAtTheirs: (looks: boolean) => void;
  layOver: () => void;
}

/** Somebody saved another version meanwhile: neither is lost. */
function Behind({ work, number, looksAtTheirs, setLooksAtTheirs, layOver }: BehindProps) {
  const { say } = useWords();
  return (
    <div class="notice notice-caution" role="alert">
      <p>{say('design.behind', { number, base: work.base })}</p>
      <div class="row">
        <Button aria-pressed={looksAtTheirs} onClick={() => setLooksAtTheirs(!looksAtTheirs)}>
          {say(looksAtTheirs ? 'design.lookAtMine' : 'design.lookAtTheirs')}
        </Button>
        <Button onClick={layOver}>{say('design.layOver')}</Button>
        <Button onClick={work.takeSaved}>{say('design.takeTheirs')}</Button>
      </div>
    </div>
  );
}
