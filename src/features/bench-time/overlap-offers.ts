import type { z } from 'zod';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { newId } from '../../platform/ids.ts';
import type { NewBenchTime } from './bench-time.schema.ts';
import type { BenchTimeRow } from './bench-time.store.ts';

/** The time that was asked for: a new one as it was sent, or one of the book that is to be changed or stopped. */
export type AskedTime = { body: z.infer<typeof NewBenchTime> } | { row: BenchTimeRow };

export interface Span {
  startedAt: string;
  /** null: it still runs. */
  stoppedAt: string | null;
}

interface OfferedRequest {
  method: 'POST' | 'PATCH';
  path: string;
  headers: Record<string, string>;
  body: object;
}

/** One way out of an overlap: what to send, in this order. */
export interface OverlapOffer {
  offer: 'cut_the_first' | 'cut_the_second' | 'split';
  requests: OfferedRequest[];
}

/** The two times in the order they begin, and who is which. */
interface Pair {
  first: Side;
  second: Side;
}

interface Side extends Span {
  time: AskedTime;
  isAsked: boolean;
}

/**
 * The ways to have both times of one person that overlap: the first ends where the second begins; the second begins where the first
 * ends; or they are split: round the one that lies inside the other, else each has half of what they share. One that would leave
 * nothing of a time is not offered, nor one that would change a time whose month is closed.
 */
export function overlapOffers(by: WrittenBy, asked: { time: AskedTime; span: Span }, kept: BenchTimeRow): OverlapOffer[] {
  const one: Side = { ...asked.span, time: asked.time, isAsked: true };
  const other: Side = { startedAt: kept.startedAt, stoppedAt: kept.stoppedAt, time: { row: kept }, isAsked: false };
  const pair = one.startedAt < other.startedAt ? { first: one, second: other } : { first: other, second: one };
  const offers: OverlapOffer[] = [
    { offer: 'cut_the_first', requests: cutFirst(by, pair) },
    { offer: 'cut_the_second', requests: cutSecond(by, pair) },
    { offer: 'split', requests: split(by, pair) },
  ];
  return offers.filter(({ requests }) => requests.length > 0);
}

function cutFirst(by: WrittenBy, { first, second }: Pair): OfferedRequest[] {
  return both(by, { first: { ...first, stoppedAt: second.startedAt }, second });
}

function cutSecond(by: WrittenBy, { first, second }: Pair): OfferedRequest[] {
  return first.stoppedAt === null ? [] : both(by, { first, second: { ...second, startedAt: first.stoppedAt } });
}

function split(by: WrittenBy, { first, second }: Pair): OfferedRequest[] {
  const firstEnds = first.stoppedAt ?? '9';
  if (second.stoppedAt !== null && second.stoppedAt < firstEnds) {
    const cut = cutFirst(by, { first, second });
    return cut.length === 0 ? [] : [...cut, noted(first.time, { startedAt: second.stoppedAt, stoppedAt: first.stoppedAt })];
  }
  if (first.stoppedAt === null) return [];
  const half = new Date((Date.parse(second.startedAt) + Date.parse(first.stoppedAt)) / 2).toISOString();
  return both(by, { first: { ...first, stoppedAt: half }, second: { ...second, startedAt: half } });
}

/** Something is left of it. */
function isLeft({ startedAt, stoppedAt }: Span): boolean {
  return stoppedAt === null || startedAt < stoppedAt;
}

/** What makes of two times what they are to be, that of the book first, so that there is room for the other. */
function both(by: WrittenBy, { first, second }: Pair): OfferedRequest[] {
  if (![first, second].every(isLeft)) return [];
  const sides = [first, second].toSorted((a, b) => Number(a.isAsked) - Number(b.isAsked));
  const requests = sides.map((side) => made(by, side));
  return requests.some((each) => each === null) ? [] : requests.flatMap((each) => each!);
}

/** @returns null for a time that can no longer be changed */
function made(by: WrittenBy, { time, startedAt, stoppedAt }: Side): OfferedRequest[] | null {
  if ('body' in time) return [noted(time, { startedAt, stoppedAt })];
  const { row } = time;
  const begins = startedAt === row.startedAt ? {} : { startedAt };
  const ends = stoppedAt === row.stoppedAt || stoppedAt === null ? {} : { stoppedAt };
  const stops = row.state === 'running' && 'stoppedAt' in ends;
  const change = stops ? begins : { ...begins, ...ends };
  if (Object.keys({ ...begins, ...ends }).length === 0) return [];
  if (row.state === 'locked') return null;
  const path = `/api/v1/bench-times/${row.id}`;
  return [
    ...(Object.keys(change).length > 0
      ? [{ method: 'PATCH' as const, path, headers: { 'if-match': `"${row.version}"` }, body: change }]
      : []),
    ...(stops ? [stopped(by, path, ends as { stoppedAt: string })] : []),
  ];
}

function stopped(by: WrittenBy, path: string, { stoppedAt }: { stoppedAt: string }): OfferedRequest {
  const device = { occurredAt: by.at.toISOString(), deviceId: by.deviceId ?? 'book', deviceSeq: 0 };
  const headers = { 'idempotency-key': newId(by.at) };
  return { method: 'POST', path: `${path}/moves`, headers, body: { from: 'running', to: 'stopped', stoppedAt, ...device } };
}

/** A time of its own, with the work of another. */
function noted(time: AskedTime, { startedAt, stoppedAt }: Span): OfferedRequest {
  const work = 'body' in time ? time.body : workOf(time.row);
  const { stoppedAt: _stoppedAt, ...body } = { ...work, startedAt, stoppedAt };
  return { method: 'POST', path: '/api/v1/bench-times', headers: {}, body: stoppedAt === null ? body : { ...body, stoppedAt } };
}

function workOf({ heatId, pieceId, operation, note }: BenchTimeRow) {
  const target = heatId === null ? (pieceId === null ? { general: true as const } : { pieceId }) : { heatId };
  return { ...target, operation, note };
}
