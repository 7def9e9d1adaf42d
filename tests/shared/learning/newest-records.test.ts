import { expect, test } from 'vitest';
import { newestRecords, recordsFor } from '../../../shared/learning/newest-records.ts';
import { operationFamily } from '../../../shared/learning/operation-family.ts';
import { USUAL_MINUTES } from '../../../shared/costing/usual-minutes.ts';

const records = (count: number, at: string, personId = 'flint') =>
  Array.from({ length: count }, () => ({ at, personId, ratio: 1.2 }));
const NOW = '2031-05-05T08:00:00Z';

test('records over 24 months old drop out once eight newer exist', () => {
  const old = records(3, '2029-05-05T07:59:59Z');
  const seven = [...old, ...records(7, '2029-05-05T08:00:00Z')];
  expect(newestRecords(seven, NOW)).toEqual(seven);
  const eight = [...old, ...records(8, '2029-05-05T08:00:00Z')];
  expect(newestRecords(eight, NOW)).toHaveLength(8);
});

test('a person’s own records count alone once there are eight', () => {
  const pooled = [...records(7, NOW, 'basalt'), ...records(4, NOW)];
  expect(recordsFor(pooled, 'basalt')).toEqual({ own: false, records: pooled });
  const enough = [...records(8, NOW, 'basalt'), ...records(4, NOW)];
  expect(recordsFor(enough, 'basalt')).toMatchObject({ own: true, records: { length: 8 } });
});

test('every usual operation but packing has a family; one of the studio’s own is a family of its own', () => {
  const alone = Object.values(USUAL_MINUTES).filter(({ operation }) => operationFamily(operation) === operation);
  expect(alone.map(({ operation }) => operation)).toEqual(['photo, label, pack']);
  expect(operationFamily('polishing')).toBe(operationFamily('filing and emery'));
  expect(operationFamily('engraving')).toBe('engraving');
});
