/** What a plan is to the hand that does it, so that two that only look different are told to be one. */

import type { Design } from '../design/design.ts';
import { endsOf } from '../design/joint-ends.ts';
import type { Heat } from '../design/plan.ts';
import { fireOf } from './piece-graph.ts';

/**
 * The same text for two plans where they differ only in which of several like joints is called by which name, or in when a section is
 * made that nothing else waits for. Joints are alike whose sizes and parts are, wherever on a part they lie.
 *
 * @param design expanded
 * @param heats in its ids
 */
export function handForm(design: Design, heats: readonly Heat[]): string {
  const likeness = likenessOf(design);
  const made = new Set(design.joints.filter((joint) => joint.made).map(({ id }) => id));
  // By joint the last heat of the section it is in.
  const sectionOf = new Map<string, number>();
  const texts: string[] = [];
  for (const heat of heats) {
    const fire = fireOf(design, made, heat.joints);
    const earlier = [...new Set(fire.made.flatMap((id) => sectionOf.get(id) ?? []))];
    const { joints, flame, protections = [], ...rest } = heat;
    const text = JSON.stringify([
      rest,
      joints.map((id) => likeness(id)).sort(),
      flame && {
        ...flame,
        awayFrom: flame.awayFrom && likeness(flame.awayFrom),
        towards: flame.towards && likeness(flame.towards),
      },
      protections
        .map((each) =>
          each.kind === 'sink' ? ['sink', each.sink, likenessOfPlace(each.at, likeness)] : [each.kind, likeness(each.guards)],
        )
        .map((each) => JSON.stringify(each))
        .sort(),
      earlier.map((section) => texts[section]!).sort(),
    ]);
    for (const id of [...fire.made, ...heat.joints]) sectionOf.set(id, texts.length);
    texts.push(text);
    for (const id of heat.joints) made.add(id);
  }
  return JSON.stringify([...new Set(sectionOf.values())].map((section) => texts[section]!).sort());
}

const likenessOfPlace = (at: { joint: string } | { part: string }, likeness: (id: string) => string): string =>
  likeness('joint' in at ? at.joint : at.part);

/** By joint or part a word that is the same for those alike: by their own sizes first, then by what they hang together with. */
function likenessOf({ parts, joints }: Design): (id: string) => string {
  let ofPart = numbered(parts.map(({ id: _id, name: _name, ...rest }) => JSON.stringify(rest)));
  let ofJoint = numbered(joints.map((joint) => JSON.stringify({ ...sizesOf(joint), between: undefined, closes: undefined })));
  const partAt = new Map(parts.map(({ id }, i) => [id, i]));
  const endsAt = joints.map((joint) => endsOf(joint).map((id) => partAt.get(id)!));
  for (let kinds = -1; kinds !== countOf(ofPart) + countOf(ofJoint);) {
    kinds = countOf(ofPart) + countOf(ofJoint);
    const [wasPart, wasJoint] = [ofPart, ofJoint];
    ofJoint = numbered(joints.map((_, j) => JSON.stringify([wasJoint[j], endsAt[j]!.map((p) => wasPart[p]!).sort(byNumber)])));
    ofPart = numbered(
      parts.map((_, p) => JSON.stringify([wasPart[p], wasJoint.filter((__, j) => endsAt[j]!.includes(p)).sort(byNumber)])),
    );
  }
  const words = new Map([
    ...parts.map(({ id }, p) => [id, `part ${ofPart[p]}`] as const),
    ...joints.map(({ id }, j) => [id, `joint ${ofJoint[j]}`] as const),
  ]);
  return (id) => words.get(id) ?? id;
}

const byNumber = (a: number, b: number): number => a - b;

const countOf = (numbers: readonly number[]): number => new Set(numbers).size;

function numbered(texts: readonly string[]): number[] {
  const kinds = [...new Set(texts)].sort();
  return texts.map((text) => kinds.indexOf(text));
}

/** Without what is only said of a joint: its name, and what it is priced with. */
function sizesOf(joint: Design['joints'][number]): object {
  const { id: _id, name: _name, solder: _solder, pieces: _pieces, trimFraction: _trim, ...sizes } = joint;
  return sizes;
}
