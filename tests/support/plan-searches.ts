import { expect } from 'vitest';
import { searchesUnderWay } from '../../src/features/plan-searches/plan-searches.store.ts';
import type { Person, TestApp } from './start-app.ts';

export interface SearchEvent {
  event: string;
  id: string;
  data: { state: string; [member: string]: unknown };
}

/** Every event of a search from here to its end, as a browser would read them (WHATWG HTML, 9.2.6). */
export async function followSearch(app: TestApp, id: string, lastEventId?: string): Promise<SearchEvent[]> {
  const reply = await openEvents(app, id, lastEventId);
  expect(reply.status).toBe(200);
  expect(reply.headers.get('content-type')).toMatch(/^text\/event-stream/);
  return eventsIn(await reply.text());
}

export async function openEvents(app: TestApp, id: string, lastEventId?: string, signal?: AbortSignal): Promise<Response> {
  const { token } = app.services.keys.addToken(app.actors.bench, { name: 'events' });
  return fetch(`${app.baseUrl}/api/v1/plan-searches/${id}/events`, {
    headers: { authorization: `Bearer ${token}`, ...(lastEventId === undefined ? {} : { 'last-event-id': lastEventId }) },
    ...(signal && { signal }),
  });
}

export function eventsIn(text: string): SearchEvent[] {
  return text.split('\n\n').flatMap((block) => {
    const fields = new Map(
      block.split('\n').map((line) => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 2)]),
    );
    const [event, id, data] = ['event', 'id', 'data'].map((name) => fields.get(name));
    return data === undefined ? [] : [{ event: event!, id: id!, data: JSON.parse(data) as SearchEvent['data'] }];
  });
}

/** A search when it is over. */
export async function overSearch(person: Person, id: string) {
  await expect
    .poll(async () => (await person.get(`/plan-searches/${id}`)).body.endedAt, { timeout: 50_000, interval: 100 })
    .toEqual(expect.any(String));
  return (await person.get(`/plan-searches/${id}`).expect(200)).body;
}

/** Waits until every search in the book is over. */
export async function noneUnderWay({ db }: Pick<TestApp, 'db'>): Promise<void> {
  while (searchesUnderWay(db).length > 0) await new Promise((resolve) => setTimeout(resolve, 20));
}
