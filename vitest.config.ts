// Vitest's settings: unit, reference and protocol tests; the real-editor tests are run by test/editor/run.ts.
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
    exclude: ['test/editor/**', '**/node_modules/**'],
    globals: false,
    setupFiles: ['test/support/properties.ts'],
    // Files share a worker and what it has loaded and compiled: nothing of ours lives in a module, and to load it anew took a third of the time.
    isolate: false,
    // One worker a core: Vitest itself has little to do.
    maxWorkers: '100%',
    // No test measures time; a busy machine may take as long as it needs.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    // Threads, files and a browser beside each other on a busy machine: a test may stumble once there, a fault fails twice.
    retry: process.env.CI ? 1 : 0,
  },
});
