import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['tests/**/*.test.ts'],
    // of two cores one would stand idle by default
    maxWorkers: '100%',
    testTimeout: 240_000,
    hookTimeout: 240_000,
  },
});
