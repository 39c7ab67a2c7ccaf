import { useLayoutEffect } from 'react';
import type { Theme } from '../state/preferences.ts';
import { applyTheme } from '../theme/applyTheme.ts';
import { useThemeInForce } from './ui/useThemeInForce.ts';

/** The theme in force, put on the page. */
export function useTheme(): Theme {
  const theme = useThemeInForce();
  useLayoutEffect(() => applyTheme(theme), [theme]);
  return theme;
}
