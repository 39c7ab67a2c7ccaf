import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface Spoken {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** The real command in a process of its own. */
export function spawnMesh(args: readonly string[]): Spoken {
  const done = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/mesh.ts', ...args], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  return { code: done.status, stdout: done.stdout, stderr: done.stderr };
}

/** The command as a person types it. */
export function spawnNpm(args: readonly string[]): Spoken {
  const done = spawnSync('npm', ['run', '-s', 'mesh', '--', ...args], { cwd: ROOT, encoding: 'utf8' });
  return { code: done.status, stdout: done.stdout, stderr: done.stderr };
}
