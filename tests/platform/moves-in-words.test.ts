import { expect, test } from 'vitest';
import words from '../reference/moves-in-words.json' with { type: 'json' };
import { MACHINES, type MachineMove } from '../support/life-cycle-machine.ts';

interface Line {
  thing: string;
  from: string[];
  to: string;
  who: string[];
  onlyIf: string;
  effect: string;
}

const LINES: Line[] = words.things.flatMap(({ thing, moves }) =>
  moves.flatMap(([move = '', who = '', onlyIf = '', effect = '']) => {
    const [from = '', to = ''] = move.split(' → ');
    return isMoveLine(to) ? [{ thing, from: from.split(', '), to, who: peopleIn(who), onlyIf, effect }] : [];
  }),
);

/** Two lines are sentences: the return that makes a new commission, and setting aside from any open state. */
function isMoveLine(to: string): boolean {
  return !to.startsWith('(') && !to.startsWith('set_aside');
}

/** "client by link, desk" as the machine form names them; what stands in brackets is a condition. */
function peopleIn(who: string): string[] {
  return who
    .replace(/ \(.*\)$/, '')
    .split(', ')
    .map((one) => (one === 'client by link' ? 'client' : one));
}

/** For whom the machine form has opened a move since the words were written, and why. */
const OPENED: readonly { thing: string; move?: string; to: string; why: string }[] = [
  { thing: 'heat', to: 'student', why: 'a student may run heats, under a tutor’s yes' },
  { thing: 'joint', move: 'placed open', to: 'student', why: 'a student’s own heat may be un-primed or skipped' },
  { thing: 'hallmark_packet', to: 'owner', why: 'the owner may do all that the desk may' },
  { thing: 'quote_version', move: 'sent declined', to: 'owner', why: 'one person alone can do everything' },
  { thing: 'private_link', move: 'open ended', to: 'system', why: 'a link ends with its commission, too' },
];

/** Moves whose words the machine form has made fuller since, and why. */
const REWORDED: Readonly<Record<string, string>> = {
  'quote_version sent accepted':
    'a move of the metal price counts only where metal is more than a set share; stock is held at agreed',
  'piece soldering built': 'heats of older plan versions do not count',
  'piece finishing checked': 'no joint may be doubtful; the maker’s eyes count where one person works alone',
  'piece checked ready': 'no joint may be doubtful',
  'piece hurt finishing': 'every joint must be sound',
  'joint placed sound': 'a heat may need no pickle',
  'joint placed open': 'two lines of one move',
  'joint sound doubtful': 'running counts as softening, and when it is set is said',
  'lot held_back open': 'cadmium is settled by a document, never by a bench test',
  'private_link open ended': 'two lines of one move',
};

const machineMove = ({ thing, to }: Line, from: string): MachineMove | undefined =>
  MACHINES.find((machine) => machine.thing === thing)?.moves.find((move) => move.from === from && move.to === to);

test('the words tell of fourteen things, each in some lines', () => {
  expect(new Set(LINES.map(({ thing }) => thing)).size).toBe(14);
  expect(LINES.length).toBeGreaterThan(90);
});

test.each(LINES)('the machine form has the words’ move of a $thing from $from to $to, for the same people', (line) => {
  for (const from of line.from) {
    const found = machineMove(line, from)!;
    expect(found).toBeDefined();
    const opened = OPENED.filter(
      ({ thing, move = `${from} ${line.to}` }) => thing === line.thing && move === `${from} ${line.to}`,
    );
    const wanted = new Set([...line.who, ...opened.map(({ to }) => to)]);
    expect(found.who).toEqual(wanted);
  }
});

test.each(LINES)('a $thing goes from $from to $to on the condition and with the effect of the words', (line) => {
  for (const from of line.from) {
    const { onlyIf, effects } = machineMove(line, from)!;
    const same = onlyIf.join() === line.onlyIf && effects.join() === line.effect;
    expect(same).toBe(REWORDED[`${line.thing} ${from} ${line.to}`] === undefined);
  }
});

test('every exception is one: no move is called reworded or opened that is as the words have it', () => {
  const named = new Set(LINES.flatMap(({ thing, from, to }) => from.map((one) => `${thing} ${one} ${to}`)));
  for (const move of Object.keys(REWORDED)) expect(named).toContain(move);
  for (const { thing, move } of OPENED) if (move !== undefined) expect(named).toContain(`${thing} ${move}`);
});
