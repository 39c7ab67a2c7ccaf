/** Draws the PNG icons in public/ from public/icon.svg: `node scripts/icons.mjs`, after the drawing has changed. */
import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { chromium } from '@playwright/test';
import { CHROMIUM_ARGS, ensureChromium } from './lib/chromium.mjs';
import { fail, ROOT } from './lib/run.mjs';

const ICONS = [
  // in the browser's tab, at twice its 32 px: part of every first visit
  { file: 'icon-64.png', size: 64 },
  { file: 'icon-192.png', size: 192 },
  { file: 'icon-512.png', size: 512 },
  // launchers cut a circle or a blob out of this one: the drawing keeps to the middle, the ground goes to the edge
  { file: 'icon-maskable-512.png', size: 512, scale: 0.72 },
];

async function main() {
  const drawing = readFileSync(resolve(ROOT, 'public/icon.svg'), 'utf8');
  const browser = await chromium.launch({ executablePath: await ensureChromium(), args: CHROMIUM_ARGS });
  try {
    for (const { file, size, scale } of ICONS) {
      const page = await browser.newPage({ viewport: { width: size, height: size } });
      const margin = scale ? (size * (1 - scale)) / 2 : 0;
      const inner = size - 2 * margin;
      await page.setContent(
        `<style>body{margin:${margin}px;background:${scale ? '#141618' : 'transparent'}}svg{display:block}</style>${drawing.replace('<svg ', `<svg width="${inner}" height="${inner}" `)}`,
      );
      writeFileSync(resolve(ROOT, 'public', file), await page.screenshot({ omitBackground: !scale }));
      await page.close();
    }
  } finally {
    await browser.close();
  }
}

main().catch(fail);
