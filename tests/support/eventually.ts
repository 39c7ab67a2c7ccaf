import { vi } from 'vitest';

/**
 * Waits until `check` no longer throws, and returns what it returns. The limit is there to end a hang: a solver in this
 * process may keep a slow machine from looking for seconds.
 */
export const eventually = <T>(check: () => T | Promise<T>): Promise<T> =>
  vi.waitFor(check, { timeout: 30_000, interval: 20 });
