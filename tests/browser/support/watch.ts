import type { BrowserContext, Page } from '@playwright/test';
import { LIBRARY_NOTICES } from './libraryNotices.ts';

/** What a page did that it should not do. */
export interface Watch {
  /** console errors and warnings, uncaught errors; library notices left out */
  readonly complaints: string[];
  /** every address asked for: by pages, workers and the service worker */
  readonly addresses: string[];
  /** answers with a status of 400 and above, and requests that got none */
  readonly failures: string[];
}

const isLibraryNotice = (text: string) => LIBRARY_NOTICES.some((notice) => notice.text.test(text));

/** Watches a context from its beginning: call before the first page opens. */
export function watch(context: BrowserContext): Watch {
  const complaints: string[] = [];
  const addresses: string[] = [];
  const failures: string[] = [];

  context.on('console', (message) => {
    const type = message.type();
    if ((type === 'error' || type === 'warning') && !isLibraryNotice(message.text())) {
      complaints.push(`${type}: ${message.text()}`);
    }
  });
  context.on('weberror', (error) => complaints.push(`uncaught: ${error.error().message}`));
  context.on('request', (request) => addresses.push(request.url()));
  context.on('requestfailed', (request) =>
    failures.push(`${request.url()}: ${request.failure()?.errorText ?? 'failed'}`),
  );
  context.on('response', (response) => {
    if (response.status() >= 400) failures.push(`${response.url()}: ${response.status()}`);
  });
  context.on('page', (page) => page.on('websocket', (socket) => addresses.push(socket.url())));
  return { complaints, addresses, failures };
}

/** Opens the app and waits until the stage is there and nothing more is loading. */
export async function openApp(page: Page, address = './'): Promise<void> {
  await page.goto(address);
  await untilSettled(page);
}

export async function untilSettled(page: Page): Promise<void> {
  await page.getByRole('main').waitFor();
  await page.locator('canvas').first().waitFor();
  await page.waitForLoadState('networkidle');
}
