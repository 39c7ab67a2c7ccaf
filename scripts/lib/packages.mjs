import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { PlainError, ROOT, run } from './run.mjs';

const OLDEST_NODE = [20, 19];

export function checkNode(version = process.versions.node) {
  const [major, minor] = version.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return;
  throw new PlainError(`Node ${version} is too old: install Node ${OLDEST_NODE.join('.')} or newer.`);
}

const readLock = (path) => {
  try {
    return JSON.parse(readFileSync(path, 'utf8')).packages ?? {};
  } catch {
    return undefined;
  }
};

/**
 * The packages that package-lock.json asks for and node_modules does not hold in that version. npm keeps the list of
 * what it installed in node_modules/.package-lock.json. Optional ones are left out: most belong to other systems.
 * @returns {string[]} names; one entry 'node_modules' when nothing is installed at all
 */
export function missingPackages(root = ROOT) {
  const wanted = readLock(resolve(root, 'package-lock.json'));
  if (!wanted) throw new PlainError('package-lock.json is missing or damaged: fetch it again.');
  const installed = readLock(resolve(root, 'node_modules/.package-lock.json'));
  if (!installed) return ['node_modules'];
  return Object.entries(wanted)
    .filter(([path, entry]) => path !== '' && !entry.optional && !entry.devOptional)
    .filter(([path, entry]) => installed[path]?.version !== entry.version)
    .map(([path]) => path.replace(/^.*node_modules\//, ''));
}

/** Installs exactly what package-lock.json says, when something of it is missing. */
export async function ensurePackages() {
  checkNode();
  const missing = missingPackages();
  if (missing.length === 0) return;
  const what =
    missing[0] === 'node_modules' ? 'the packages' : `${missing.length} missing or outdated package(s)`;
  console.log(`Installing ${what} (needs the network once) …`);
  const code = await run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error']);
  if (code !== 0) {
    throw new PlainError('npm could not install the packages (see above): check the network and try again.');
  }
}
