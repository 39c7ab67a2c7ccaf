import { deviceStorage } from '../storage/device.ts';
import { keepUnread } from '../storage/unread.ts';
import { AREAS, areaOf, pathOf, useArea } from './area.ts';
import { useBacklashLock } from './backlashLock.ts';
import { decodeState, encodeState } from './codec.ts';
import { useCompare } from './compare.ts';
import { useNotices } from './notices.ts';
import { presentForm, useOwnAxles } from './ownAxles.ts';
import { usePreferences } from './preferences.ts';
import { rested } from './rested.ts';
import { useSetup } from './setup.ts';
import { useView } from './view.ts';

/** The address bar, as far as links need it. */
export interface AddressBar {
  /** what follows the `#`, without it */
  read(): string;
  /** replaces it without an entry in the browser's history */
  replace(hash: string): void;
  /** called when someone else changed it */
  listen(changed: () => void): () => void;
}

const NOTICE_ID = 'link';
const OWN_AXLE_NOTICE_ID = 'link own axle';

/** A link that waits for its own axle to be imported. */
let waiting: { readonly key: string; readonly hash: string } | null = null;

/** The link that brings somebody else to the present state; what follows the `#`. */
export function currentHash(): string {
  const { picture, camera, contours, arrows } = useView.getState();
  const { units } = usePreferences.getState();
  const view = { picture, camera, contours, arrows };
  const keptReading = useBacklashLock.getState().held?.reading ?? null;
  const { left } = useCompare.getState();
  const path = pathOf(useArea.getState().area);
  return `${path}?${encodeState({ setup: useSetup.getState().committed, view, units, keptReading, left })}`;
}

/**
 * Takes over the state a link carries. What it does not say stays at its default; what cannot be understood is told in
 * a notice and the link is kept word for word.
 */
export function adoptHash(hash: string): void {
  const query = hash.indexOf('?');
  const text = query === -1 ? '' : hash.slice(query + 1);
  const path = (query === -1 ? hash : hash.slice(0, query)).replace(/\/+$/, '');
  const area = areaOf(path);
  const pathIsKnown = path === '' || area !== undefined;
  if (area !== undefined) useArea.getState().go(area);
  if (text === '' && pathIsKnown) return;

  const { state, problems, ownAxle } = decodeState(text);
  waiting = ownAxle?.state === 'missing' ? { key: ownAxle.key, hash } : null;
  const { show, dismiss } = useNotices.getState();
  if (ownAxle === undefined) dismiss(OWN_AXLE_NOTICE_ID);
  else if (ownAxle.state === 'changed') {
    show({ id: OWN_AXLE_NOTICE_ID, kind: 'plain', text: 'app.link.ownAxle.changed' });
  } else {
    keepUnread(deviceStorage, { source: 'link', text: hash });
    show({ id: OWN_AXLE_NOTICE_ID, kind: 'own-axle-missing' });
  }
  const all = pathIsKnown
    ? problems
    : [
        {
          part: 'page',
          found: path.slice(0, 40),
          allowed: { kind: 'choice' as const, choices: AREAS.map(pathOf) },
        },
        ...problems,
      ];
  if (all.length > 0) {
    keepUnread(deviceStorage, { source: 'link', text: hash });
    show({ id: NOTICE_ID, kind: 'link', problems: all });
  }
  if (text === '') return;
  useSetup.getState().apply(state.setup);
  const view = useView.getState();
  if (view.camera !== state.view.camera) view.goHome(state.view.camera);
  view.showPicture(state.view.picture);
  view.setContours(state.view.contours);
  useCompare.getState().choose(state.left);
  view.setArrows(state.view.arrows);
  const lock = useBacklashLock.getState();
  if (state.keptReading === null) lock.switchTo(false);
  else lock.holdReading(state.keptReading);
  if (state.units !== null) usePreferences.getState().showUnits(state.units);
}

/** Reads the link the app was opened with, then keeps the address at the state and the state at a changed address. */
export function followAddress(address: AddressBar): () => void {
  adoptHash(address.read());
  // what the link opened is where undo begins
  useSetup.temporal.getState().clear();
  let written = '';
  const write = () => {
    const hash = currentHash();
    if (hash === written) return;
    written = hash;
    address.replace(hash);
  };
  write();
  const endings = [
    useSetup.subscribe((state, before) => {
      if (state.committed !== before.committed) write();
    }),
    useView.subscribe(write),
    useArea.subscribe(write),
    useBacklashLock.subscribe((state, before) => {
      if (state.held !== before.held) write();
    }),
    useCompare.subscribe((state, before) => {
      if (state.left !== before.left) write();
    }),
    usePreferences.subscribe((state, before) => {
      if (state.units !== before.units) write();
    }),
    useOwnAxles.subscribe(() => {
      if (waiting !== null && presentForm(waiting.key) !== null) adoptHash(waiting.hash);
    }),
    address.listen(() => {
      const hash = address.read();
      if (hash === written) return;
      adoptHash(hash);
      written = '';
      write();
    }),
  ];
  return () => {
    for (const end of endings) end();
  };
}

/** ms without a change before the address follows. */
const ADDRESS_REST_MS = 400;

/**
 * The window's own: it follows when the controls come to rest, and at the latest when the page goes. `data-address` on
 * the document says whether it has (`rested`) or has yet to (`following`).
 */
export function windowAddressBar(): AddressBar {
  const address = rested<string>(
    (hash) => {
      window.history.replaceState(window.history.state, '', `#${hash}`);
      document.documentElement.dataset.address = 'rested';
    },
    ADDRESS_REST_MS,
    { now: () => performance.now(), later: (callback, ms) => window.setTimeout(callback, ms) },
  );
  window.addEventListener('pagehide', address.flush);
  document.addEventListener('visibilitychange', address.flush);
  return {
    read: () => window.location.hash.replace(/^#/, ''),
    replace: (hash) => {
      document.documentElement.dataset.address = 'following';
      address.put(hash);
    },
    listen: (changed) => {
      window.addEventListener('hashchange', changed);
      return () => window.removeEventListener('hashchange', changed);
    },
  };
}
