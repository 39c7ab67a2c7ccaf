import type { Theme } from '../state/preferences.ts';

const GROUNDS: Readonly<Record<Theme, string>> = { workshop: '#1c1f22', projector: '#fbfaf7' };

/** The theme chosen, or the one nearest to what the system asks for. */
export function themeInForce(chosen: Theme | null, systemIsLight: boolean): Theme {
  return chosen ?? (systemIsLight ? 'projector' : 'workshop');
}

/** Puts a theme on the page and on the browser's own frame round it. */
export function applyTheme(theme: Theme): void {
  document.documentElement.dataset.theme = theme;
  document.querySelector('meta[name="theme-color"]')?.setAttribute('content', GROUNDS[theme]);
}
