/** What of the window this needs. */
export interface ReloadableWindow extends EventTarget {
  readonly location: { reload(): void };
  readonly navigator: { readonly serviceWorker?: EventTarget & { readonly controller: unknown } };
}

/**
 * A new version of the app takes over in the background while an old page is open. A part of the old version that the
 * page had not loaded by then is gone: asking for it reloads the page into the new version. The state is in the
 * address, so nothing is lost. A part that fails for any other reason is left to whoever asked for it.
 */
export function reloadWhenReplaced(page: ReloadableWindow): void {
  const { serviceWorker } = page.navigator;
  // absent over plain http; then there is no background change either
  if (serviceWorker === undefined) return;
  // the first visit goes from none to one: the same version
  let hadVersion = serviceWorker.controller !== null;
  let replaced = false;
  serviceWorker.addEventListener('controllerchange', () => {
    replaced = hadVersion;
    hadVersion = true;
  });
  page.addEventListener('vite:preloadError', (event) => {
    if (!replaced) return;
    event.preventDefault();
    page.location.reload();
  });
}
