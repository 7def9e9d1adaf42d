import { cruise, type IFlattenedRuleSet } from 'dependency-cruiser';
import { expect, test } from 'vitest';

const rules: IFlattenedRuleSet['forbidden'] = [
  { name: 'no-cycle', severity: 'error', from: {}, to: { circular: true } },
  {
    name: 'engine-is-pure',
    severity: 'error',
    from: { path: '^shared/' },
    to: { pathNot: '^shared/|^node_modules/(decimal\\.js|ml-levenberg-marquardt|(@types/)?d3-(scale|shape))/' },
  },
  {
    name: 'platform-knows-no-feature',
    severity: 'error',
    from: { path: '^src/platform/' },
    to: { path: '^src/', pathNot: '^src/platform/' },
  },
  {
    name: 'features-meet-at-the-door',
    severity: 'error',
    from: { path: '^src/features/([^/]+)/' },
    to: { path: '^src/features/', pathNot: ['^src/features/$1/', '^src/features/[^/]+/index\\.ts$'] },
  },
  {
    name: 'features-know-no-app',
    severity: 'error',
    from: { path: '^src/features/' },
    to: { path: '^(src/[^/]+\\.ts|seed/|tests/)' },
  },
  // It knows the server by its description alone.
  {
    name: 'page-knows-the-engine-alone',
    severity: 'error',
    from: { path: '^src/web/' },
    to: { path: '^src/', pathNot: '^src/web/' },
  },
  { name: 'nobody-knows-the-page', severity: 'error', from: { pathNot: '^src/web/' }, to: { path: '^src/web/' } },
  {
    name: 'pages-meet-at-the-ui',
    severity: 'error',
    from: { path: '^src/web/pages/([^/]+)/' },
    to: { path: '^src/web/pages/', pathNot: '^src/web/pages/$1/' },
  },
  { name: 'program-knows-no-seed-or-test', severity: 'error', from: { path: '^(src|shared)/' }, to: { path: '^(seed|tests)/' } },
  {
    name: 'only-tests-use-test-tools',
    severity: 'error',
    from: { path: '^(src|shared|seed)/', pathNot: '^src/web/(build-page|vite\\.config)\\.ts$' },
    to: { dependencyTypes: ['npm-dev'] },
  },
  // The types of the API are kept out of the repository; `npm run types` writes and needs them.
  { name: 'resolves', severity: 'error', from: {}, to: { couldNotResolve: true, pathNot: 'api-schema\\.d\\.ts$' } },
];

test('imports point one way', async () => {
  const { output } = await cruise(
    ['src', 'shared', 'seed'],
    {
      ruleSet: { forbidden: rules },
      validate: true,
      tsPreCompilationDeps: true,
      doNotFollow: { path: 'node_modules' },
      combinedDependencies: false,
    },
    { extensions: ['.ts', '.tsx', '.js', '.json'], exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'] },
  );
  if (typeof output === 'string') throw new Error('the result is not an object');
  const { violations, totalCruised } = output.summary;
  expect(violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)).toEqual([]);
  // A cruise that sees nothing passes everything.
  expect(totalCruised).toBeGreaterThan(60);
});
