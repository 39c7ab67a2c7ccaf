import { CSPProvider } from '@base-ui/react/csp-provider';
import { lazy, Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { useArea } from '../state/area.ts';
import { useNotices } from '../state/notices.ts';
import { preferencesLoad, usePreferences } from '../state/preferences.ts';
import type { Locale } from '../text/translate.ts';
import { TextContext, translateFor, useText } from '../text/useText.ts';
import styles from './App.module.css';
import { ExploreScreen } from './ExploreScreen.tsx';
import { AboutSheet } from './sheets/AboutSheet.tsx';
import { HelpSheet } from './sheets/HelpSheet.tsx';
import { SettingsSheet } from './sheets/SettingsSheet.tsx';
import { ShareSheet } from './sheets/ShareSheet.tsx';
import { shortcutsOf, useShortcuts } from './shortcuts.ts';
import { type SheetName, TopBar } from './TopBar.tsx';
import { useMediaQuery } from './ui/useMediaQuery.ts';
import { useTheme } from './useTheme.ts';

/** A phone: one control at a time, at the bottom. */
const PHONE = '(max-width: 700px)';

/** Whoever only explores never loads the other areas. */
const MatchScreen = lazy(async () => ({ default: (await import('./MatchScreen.tsx')).MatchScreen }));

export function App({ locale }: { readonly locale: Locale }) {
  const translate = useMemo(() => translateFor(locale), [locale]);
  return (
    <CSPProvider disableStyleElements>
      <TextContext value={translate}>
        <Shell />
      </TextContext>
    </CSPProvider>
  );
}

function Shell() {
  const t = useText();
  const theme = useTheme();
  const phone = useMediaQuery(PHONE);
  const area = useArea((state) => state.area);
  const [sheet, setSheet] = useState<SheetName | null>(null);
  const toggleTheme = useCallback(
    () => usePreferences.getState().change({ theme: theme === 'workshop' ? 'projector' : 'workshop' }),
    [theme],
  );
  const shortcuts = useMemo(
    () =>
      shortcutsOf({
        toggleTheme,
        openHelp: () => setSheet('help'),
        openShare: () => setSheet('share'),
      }),
    [toggleTheme],
  );
  useShortcuts(shortcuts);
  useEffect(() => {
    if (preferencesLoad.found !== 'unreadable') return;
    useNotices.getState().show({ id: 'preferences', kind: 'plain', text: 'app.preferences.unreadable' });
  }, []);
  const sheetProps = (name: SheetName) => ({
    open: sheet === name,
    onOpenChange: (open: boolean) => setSheet(open ? name : null),
  });

  return (
    <>
      <nav className={styles.skips} aria-label={t('app.skip.label')}>
        <SkipTo id="controls" text={t('app.skip.controls')} />
        <SkipTo id="flank-maps" text={t('app.skip.maps')} />
      </nav>
      <div className={styles.shell} data-layout={phone ? 'phone' : 'wide'}>
        <TopBar theme={theme} onToggleTheme={toggleTheme} onOpen={setSheet} />
        {area === 'explore' ? (
          <ExploreScreen theme={theme} phone={phone} />
        ) : (
          <Suspense fallback={<main className={styles.waiting}>{t('app.area.loading')}</main>}>
            <MatchScreen />
          </Suspense>
        )}
      </div>
      <SettingsSheet
        {...sheetProps('settings')}
        theme={theme}
        onShare={() => setSheet('share')}
        onHelp={() => setSheet('help')}
        onAbout={() => setSheet('about')}
      />
      <HelpSheet {...sheetProps('help')} shortcuts={shortcuts} />
      <ShareSheet {...sheetProps('share')} />
      <AboutSheet {...sheetProps('about')} />
    </>
  );
}

/** The hash belongs to the state, so a skip moves the focus itself. */
function SkipTo({ id, text }: { readonly id: string; readonly text: string }) {
  return (
    <button type="button" onClick={() => document.getElementById(id)?.focus()}>
      {text}
    </button>
  );
}
