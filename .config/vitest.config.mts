import path from 'node:path';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: path.join(import.meta.dirname, '..'),
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/workbench/**', '**/node_modules/**'],
    // Property tests print their seed on failure; nothing here is timed, so a slow machine only needs patience.
    setupFiles: [path.join(import.meta.dirname, 'vitest.setup.mjs')],
    testTimeout: 60_000,
    maxWorkers: 2,
  },
});
