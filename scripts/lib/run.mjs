import { spawn } from 'node:child_process';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '../..');

/** A thing the person can mend: printed as one line, without a stack. */
export class PlainError extends Error {}

/**
 * Runs a program to its end with its output passed through.
 * @returns {Promise<number>} its exit code; 1 when a signal ended it
 */
export function run(command, args, { env = {}, quiet = false } = {}) {
  return new Promise((done, fail) => {
    const child = spawn(command, args, {
      cwd: ROOT,
      env: { ...process.env, ...env },
      // never waits for a key: these commands also run where nobody sits
      stdio: ['ignore', quiet ? 'ignore' : 'inherit', quiet ? 'ignore' : 'inherit'],
      // npm is a .cmd file there, which only the shell starts
      shell: process.platform === 'win32' && command === 'npm',
    });
    child.on('error', fail);
    child.on('exit', (code) => done(code ?? 1));
  });
}

/** Runs a package's own command file with this very Node. */
export const runNode = (file, args, options) =>
  run(process.execPath, [resolve(ROOT, file), ...args], options);

/** Ends the process as the command's answer: PlainError as one line, anything else with its stack. */
export function fail(error) {
  if (error instanceof PlainError) console.error(`meshwitness: ${error.message}`);
  else console.error(error);
  process.exit(1);
}
