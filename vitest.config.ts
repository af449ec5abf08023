// Vitest's settings: unit, reference and protocol tests; the real-editor tests are run by test/editor/run.ts.
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
    exclude: ['test/editor/**', '**/node_modules/**'],
    globals: false,
    setupFiles: ['test/support/properties.ts'],
    // No test measures time; a busy machine may take as long as it needs.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // Threads, files and a browser beside each other on a busy machine: a test may stumble once there, a fault fails twice.
    retry: process.env.CI ? 1 : 0,
  },
});
