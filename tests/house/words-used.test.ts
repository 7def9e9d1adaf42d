import { globSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { en } from '../../src/web/words/en/index.ts';

const page = globSync('src/web/**/*.{ts,tsx}')
  .filter((file) => !/words\/(en|de)\//.test(file) && !file.endsWith('.d.ts'))
  .map((file) => readFileSync(file, 'utf8'))
  .join('\n');

/** The first part of a key that is put together: "plan.level." of `plan.level.${level}`, "lot.state." of named('lot.state', state). */
const begun = [
  ...page.matchAll(/`([\w.-]+\.)\$\{/g),
  ...page.matchAll(/named\(\s*['"`]([\w.-]+)['"`]/g),
  ...page.matchAll(/words="([\w.-]+)"/g),
  // A group that is handed on, such as of: 'report.cause'.
  ...page.matchAll(/['"]([\w-]+\.[\w.-]+)['"]/g),
].map(([, part]) => (part!.endsWith('.') ? part! : `${part}.`));

test('every word of the page is said somewhere on it', () => {
  const said = new Set([...page.matchAll(/['"`]([\w-]+(?:\.[^'"`\n${}]+)+)['"`]/g)].map(([, key]) => key!));
  const starts = new Set(begun);
  const isSaid = (key: string) =>
    said.has(key) || [...key.matchAll(/\./g)].some(({ index }) => starts.has(key.slice(0, index + 1)));
  expect(isSaid('shell.noSuchWord')).toBe(false);
  expect(Object.keys(en).filter((key) => !isSaid(key))).toEqual([]);
});
