import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { PlainError, run } from './run.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

const USUAL_PLACES = {
  linux: ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome', '/snap/bin/chromium'],
  darwin: [
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  ],
  win32: [process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA]
    .filter(Boolean)
    .flatMap((folder) => [
      join(folder, 'Chromium/Application/chrome.exe'),
      join(folder, 'Google/Chrome/Application/chrome.exe'),
    ]),
};

/** What rendering needs without a graphics card, and what keeps the browser from calling home during tests. */
export const CHROMIUM_ARGS = [
  '--no-sandbox',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--use-fake-device-for-media-stream',
  '--use-fake-ui-for-media-stream',
];

const isProgram = (path) => {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};

/** Some systems ship a script that only says where to get the browser: a real one tells its version. */
const answers = (path) =>
  // on Windows the same call opens a window
  process.platform === 'win32' || spawnSync(path, ['--version'], { timeout: 20_000 }).status === 0;

/** The browser the test library downloaded, where someone has run its install command. */
async function downloadedBrowser() {
  try {
    const { chromium } = await import('@playwright/test');
    return chromium.executablePath();
  } catch {
    return undefined;
  }
}

/** @returns {Promise<string | undefined>} path of a Chromium that runs here */
export async function findChromium() {
  const told = process.env.MESHWITNESS_CHROMIUM;
  if (told) {
    if (!existsSync(told)) throw new PlainError(`MESHWITNESS_CHROMIUM=${told}: no such file.`);
    return told;
  }
  const onPath = (process.env.PATH ?? '')
    .split(delimiter)
    .filter(Boolean)
    .flatMap((folder) => NAMES.map((name) => join(folder, name)));
  const places = [...(USUAL_PLACES[process.platform] ?? []), ...onPath, await downloadedBrowser()];
  return places.find((path) => path && isProgram(path) && answers(path));
}

const INSTALLERS = [
  {
    tool: 'apt-get',
    steps: [
      ['update', '-qq'],
      ['install', '-y', '-qq', '--no-install-recommends', 'chromium'],
    ],
  },
  { tool: 'dnf', steps: [['install', '-y', 'chromium']] },
  { tool: 'apk', steps: [['add', 'chromium']] },
  { tool: 'pacman', steps: [['-Sy', '--noconfirm', 'chromium']] },
];

const succeeds = (command, args) => spawnSync(command, args, { stdio: 'ignore' }).status === 0;

/** Runs the system's package manager when this user may do so without being asked. */
async function installChromium() {
  if (process.platform !== 'linux') return;
  const asRoot = process.getuid() === 0 ? [] : succeeds('sudo', ['-n', 'true']) ? ['sudo', '-n'] : undefined;
  const installer = INSTALLERS.find(({ tool }) => succeeds(tool, ['--version']));
  if (!asRoot || !installer) return;
  console.log(`Installing Chromium with ${installer.tool} …`);
  for (const step of installer.steps) {
    const [command, ...args] = [...asRoot, installer.tool, ...step];
    const code = await run(command, args, { env: { DEBIAN_FRONTEND: 'noninteractive' } });
    if (code !== 0) return;
  }
}

/** @returns {Promise<string>} path of a Chromium, installed now if there was none */
export async function ensureChromium() {
  let path = await findChromium();
  if (path) return path;
  await installChromium();
  path = await findChromium();
  if (path) return path;
  throw new PlainError(
    'no Chromium found: install one (Debian: sudo apt-get install chromium; anywhere: npx playwright install chromium) or set MESHWITNESS_CHROMIUM to its path.',
  );
}
