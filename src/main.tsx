import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createMeshService } from '../sim/worker/client.ts';
import { App } from './app/App.tsx';
import { reloadWhenReplaced } from './app/reloadWhenReplaced.ts';
import { followHeldReading } from './state/backlashLock.ts';
import { followCompared } from './state/compare.ts';
import { followDial } from './state/dial.ts';
import { followAddress, windowAddressBar } from './state/link.ts';
import { followSetup } from './state/mesh.ts';
import { followOwnAxles, openOwnAxles } from './state/ownAxles.ts';
import { showBeforeKeys } from './state/shownSetup.ts';
import { followShownSet } from './state/solids.ts';
import { followTraces } from './state/traces.ts';
import { LOCALES, type Locale } from './text/translate.ts';
import './theme/tokens.css';
import './theme/base.css';

/** `?text=pseudo` stretches every text; for finding what a longer language would cut. */
function localeAsked(): Locale {
  const asked = new URLSearchParams(window.location.search).get('text');
  return LOCALES.find((locale) => locale === asked) ?? 'en';
}

async function start(): Promise<void> {
  await openOwnAxles();
  followOwnAxles(window);
  // The link decides what is solved first, so it is read before the core is asked; it may be for an own axle.
  followAddress(windowAddressBar());
  const core = createMeshService();
  followSetup(core);
  followCompared(core);
  followHeldReading();
  followTraces();
  followDial(core);
  showBeforeKeys(window);
  followShownSet(core);

  reloadWhenReplaced(window);

  const root = document.getElementById('root');
  if (root === null) throw new Error('index.html: the element with id "root" is missing');
  createRoot(root).render(
    <StrictMode>
      <App locale={localeAsked()} />
    </StrictMode>,
  );
}

void start();
