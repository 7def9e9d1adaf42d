import { useState } from 'preact/hooks';
import type { HeatNow } from '../../offline/heat-as-done.ts';
import type { Note, StepGiven } from '../../offline/step-queue.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { useWords } from '../../words/words.ts';
import { moveHeat } from './heat-asks.ts';
import { TakenPictures } from './taken-pictures.tsx';
import { smallerPicture } from '../../ui/photos/smaller-picture.ts';
import { usePictures } from '../../ui/photos/use-pictures.ts';

const OUTCOMES = ['part_flowed', 'no_flow', 'earlier_joint_moved', 'overheated', 'part_shifted'] as const;
type Outcome = 'flowed' | (typeof OUTCOMES)[number];

const KINDS = [
  'reflow',
  'no_flow',
  'overheated',
  'shifted',
  'fire_stain',
  'pit',
  'cracked_stone',
  'copper_blush',
  'burst',
  'lost',
  'burn_or_injury',
] as const;
type Kind = (typeof KINDS)[number];

const USUAL_KIND: Readonly<Partial<Record<Outcome, Kind>>> = {
  part_flowed: 'no_flow',
  no_flow: 'no_flow',
  earlier_joint_moved: 'reflow',
  overheated: 'overheated',
  part_shifted: 'shifted',
};

interface Props {
  heat: HeatNow;
  note: (given: StepGiven) => Note['step'];
}

/** After the look: the outcomes that are not "it flowed", a tap each. At any other time: it went wrong. */
export function WentWrong({ heat, note }: Props) {
  const { say } = useWords();
  const [outcome, setOutcome] = useState<Outcome>();
  const [isOpen, setOpen] = useState(false);
  const close = () => {
    setOpen(false);
    setOutcome(undefined);
  };
  const form = isOpen && <WrongForm key={outcome} heat={heat} outcome={outcome} note={note} close={close} />;
  if (heat.state !== 'looking')
    return (
      <>
        <Button kind="danger" aria-expanded={isOpen} onClick={() => (isOpen ? close() : setOpen(true))}>
          {say('bench.wrong')}
        </Button>
        {form}
      </>
    );
  return (
    <section class="card" aria-labelledby="bench-outcomes">
      <h2 id="bench-outcomes">{say('bench.outcome')}</h2>
      <div class="bench-choices">
        {OUTCOMES.map((one) => (
          <Button
            key={one}
            kind="danger"
            aria-pressed={one === outcome}
            onClick={() => {
              setOutcome(one);
              setOpen(true);
            }}
          >
            {say(`bench.outcome.${one}`)}
          </Button>
        ))}
      </div>
      {form}
    </section>
  );
}

/** While a flame was on it and it is not in the pickle, what went wrong ends the heat; else it is noted beside it. */
const ENDS: ReadonlySet<string> = new Set(['alight', 'cooling', 'looking']);

function WrongForm({ heat, outcome: given, note, close }: Props & { outcome: Outcome | undefined; close: () => void }) {
  const { say } = useWords();
  const ends = ENDS.has(heat.state);
  const [outcome, setOutcome] = useState<Outcome | undefined>(given);
  const [kind, setKind] = useState<Kind | undefined>(given && USUAL_KIND[given]);
  const [jointId, setJoint] = useState<string>();
  const [moved, setMoved] = useState<readonly string[]>([]);
  const [words, setWords] = useState('');
  const [taken, setTaken] = useState<readonly File[]>([]);
  const [showsPerson, setPerson] = useState(false);
  const pictures = usePictures();
  const earlier = (heat.expected?.earlierJoints ?? []).map(({ joint }) => joint);
  const needsMoved = outcome === 'earlier_joint_moved';
  const isSaid = kind !== undefined && (!ends || outcome !== undefined) && (!needsMoved || moved.length > 0);
  const go = () => {
    const wrong = { kind, ...(jointId !== undefined && { jointId }), ...(words.trim() !== '' && { note: words.trim() }) };
    const { key: stepKey, occurredAt: seenAt } = note(
      ends
        ? moveHeat(heat, 'spoilt', { outcome, incident: { ...wrong, ...(moved.length > 0 && { movedJoints: moved }) } })
        : { do: 'note_incident', pieceId: heat.pieceId, heatId: heat.id, ...wrong },
    );
    const of = { pieceId: heat.pieceId, heatId: heat.id };
    for (const file of taken)
      void smallerPicture(file).then((smaller) =>
        pictures.add({ file: smaller, of, showsPerson, incident: { stepKey, seenAt } }),
      );
    close();
  };
  return (
    <section class="card" aria-label={say('bench.wrong')}>
      {ends && given === undefined && (
        <Choices
          legend={say('bench.wrongOutcome')}
          of={heat.state === 'looking' ? OUTCOMES : (['flowed', ...OUTCOMES] as const)}
          word={(one) => say(`bench.outcome.${one}`)}
          isChosen={(one) => one === outcome}
          choose={(one) => {
            setOutcome(one);
            setKind((before) => before ?? USUAL_KIND[one]);
          }}
        />
      )}
      {needsMoved && (
        <Choices
          legend={say('bench.wrongMoved')}
          of={earlier}
          word={(one) => one}
          isChosen={(one) => moved.includes(one)}
          choose={(one) => setMoved(moved.includes(one) ? moved.filter((other) => other !== one) : [...moved, one])}
        />
      )}
      <Choices
        legend={say('bench.wrongKind')}
        of={KINDS}
        word={(one) => say(`bench.incident.${one}`)}
        isChosen={(one) => one === kind}
        choose={setKind}
      />
      <Choices
        legend={say('bench.wrongJoint')}
        of={[...heat.joints, ...earlier]}
        word={(one) => one}
        isChosen={(one) => one === jointId}
        choose={(one) => setJoint(one === jointId ? undefined : one)}
      />
      <TakenPictures {...{ taken, setTaken, showsPerson, setPerson }} />
      <Field label={say('bench.wrongNote')} value={words} maxLength={2000} onValue={setWords} />
      <div class="bench-choices">
        <Button kind="danger" disabled={!isSaid} onClick={go}>
          {say('bench.wrongGo')}
        </Button>
        <Button onClick={close}>{say('shell.cancel')}</Button>
      </div>
    </section>
  );
}

function Choices<T extends string>({
  legend,
  of,
  word,
  isChosen,
  choose,
}: {
  legend: string;
  of: readonly T[];
  word: (one: T) => string;
  isChosen: (one: T) => boolean;
  choose: (one: T) => void;
}) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      <div class="bench-choices">
        {of.map((one) => (
          <Button key={one} aria-pressed={isChosen(one)} onClick={() => choose(one)}>
            {isChosen(one) ? '✓ ' : ''}
            {word(one)}
          </Button>
        ))}
      </div>
    </fieldset>
  );
}
