import { useSyncExternalStore } from 'react';

const QUERY = '(prefers-reduced-motion: reduce)';

function subscribe(changed: () => void): () => void {
  const list = window.matchMedia(QUERY);
  list.addEventListener('change', changed);
  return () => list.removeEventListener('change', changed);
}

/** The system's wish for less motion, as it is now. */
export const usePrefersReducedMotion = (): boolean =>
  useSyncExternalStore(subscribe, () => window.matchMedia(QUERY).matches);
