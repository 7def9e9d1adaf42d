import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/fixed-seed.ts'],
    reporters: ['default', ['json', { outputFile: 'node_modules/.cache/test-report.json' }]],
    testTimeout: 60_000,
    expect: { poll: { timeout: 30_000 } },
    hookTimeout: 60_000,
  },
});
