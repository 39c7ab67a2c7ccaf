import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    name: 'node',
    environment: 'node',
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/browser/**', 'node_modules/**', 'dist/**'],
    // left alone it keeps one of two cores free for watching, which nobody does here
    maxWorkers: '100%',
    // the machine that runs this may have two slow cores: a limit is there to end a hang, not to judge speed
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
