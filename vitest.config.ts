import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/support/built-page.ts'],
    setupFiles: ['tests/support/fixed-seed.ts'],
    // Many wait for a browser or a server: one core need not stay free for the runner.
    maxWorkers: '100%',
    reporters: ['default', ['json', { outputFile: 'node_modules/.cache/test-report.json' }]],
    testTimeout: 240_000,
    expect: { poll: { timeout: 30_000 } },
    hookTimeout: 240_000,
  },
});
