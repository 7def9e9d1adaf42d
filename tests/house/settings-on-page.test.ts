import { expect, test } from 'vitest';
import { z } from 'zod';
import { SettingsBody } from '../../src/features/settings/settings.schema.ts';
import { OWN_PLACES, SETTING_SECTIONS } from '../../src/web/pages/studio/settings-fields.ts';

/** Every setting by its path; what is chosen by a shape, or kept as a table, is one. */
function pathsOf(schema: z.ZodType, at: readonly string[] = []): string[] {
  const inside = schema instanceof z.ZodNullable ? (schema.unwrap() as z.ZodType) : schema;
  if (!(inside instanceof z.ZodObject)) return [at.join('.')];
  return Object.entries(inside.shape as Record<string, z.ZodType>).flatMap(([name, member]) => pathsOf(member, [...at, name]));
}

test('every setting of the studio can be changed on the page, at one place', () => {
  const own: readonly string[] = OWN_PLACES;
  const isOwn = (path: string) => own.some((place) => path === place || path.startsWith(`${place}.`));
  const onPage = SETTING_SECTIONS.flatMap(({ fields }) => fields.map(({ path }) => path as string));
  const settings = pathsOf(SettingsBody);
  expect(settings).toContain('pickle.oxideUm');
  expect(onPage.toSorted()).toEqual(settings.filter((path) => !isOwn(path)).toSorted());
});
