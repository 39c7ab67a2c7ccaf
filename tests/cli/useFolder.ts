import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

/** A folder for the files of one test group, removed afterwards. */
export function useFolder() {
  const folder = mkdtempSync(join(tmpdir(), 'meshwitness-cli-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const path = (name: string): string => join(folder, name);
  return {
    path,
    write(name: string, content: string | Uint8Array): string {
      writeFileSync(path(name), content);
      return path(name);
    },
  };
}
