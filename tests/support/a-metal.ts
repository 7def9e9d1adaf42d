import type { Person } from './start-app.ts';

const sheet = 'data sheet of Alder Street Metals (invented)';

/** A silver of an invented studio, as its data sheet has it. */
export function aMetal(given: Record<string, unknown> = {}) {
  return {
    id: 'our-950',
    name: 'Our 950',
    kind: 'silver',
    finenessFraction: { value: 0.95, source: sheet },
    solidusC: { value: 870, source: sheet },
    liquidusC: { value: 925, source: sheet },
    densityGPerCm3: { value: 10.4, source: 'weighed in water' },
    ...given,
  };
}

export async function addMetal(person: Person, given: Record<string, unknown> = {}) {
  return (await person.post('/metals', aMetal(given)).expect(201)).body;
}
