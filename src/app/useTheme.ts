import { useLayoutEffect } from 'react';
import { type Theme, usePreferences } from '../state/preferences.ts';
import { applyTheme, themeInForce } from '../theme/applyTheme.ts';
import { useMediaQuery } from './useMediaQuery.ts';

/** The theme on the page; follows the system only until one is chosen. */
export function useTheme(): Theme {
  const chosen = usePreferences((state) => state.theme);
  const systemIsLight = useMediaQuery('(prefers-color-scheme: light)');
  const theme = themeInForce(chosen, systemIsLight);
  useLayoutEffect(() => applyTheme(theme), [theme]);
  return theme;
}
