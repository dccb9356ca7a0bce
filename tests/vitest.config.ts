import { defineConfig } from 'vitest/config';

// The page's own configuration has its root in src/; the tests' root is the repository.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'node_modules/**'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    pool: 'threads',
    maxWorkers: 2,
  },
});
