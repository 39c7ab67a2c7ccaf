import { type Theme, usePreferences } from '../../state/preferences.ts';
import { themeInForce } from '../../theme/applyTheme.ts';
import { useMediaQuery } from './useMediaQuery.ts';

/** The theme that is wanted; follows the system only until one is chosen. */
export function useThemeInForce(): Theme {
  const chosen = usePreferences((state) => state.theme);
  const systemIsLight = useMediaQuery('(prefers-color-scheme: light)');
  return themeInForce(chosen, systemIsLight);
}
