import { run } from '../../src/cli/main.ts';
import type { Spoken } from './spawnMesh.ts';

/** The command in this process, for many quick tries. */
export function runMesh(args: readonly string[]): Spoken & { readonly files: ReadonlyMap<string, string> } {
  let stdout = '';
  let stderr = '';
  const files = new Map<string, string>();
  const code = run(args, {
    out: (text) => {
      stdout += text;
    },
    err: (line) => {
      stderr += line;
    },
    writeFile: (path, text) => {
      files.set(path, text);
    },
  });
  return { code, stdout, stderr, files };
}
