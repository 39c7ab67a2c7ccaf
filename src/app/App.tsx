import { CSPProvider } from '@base-ui/react/csp-provider';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { Bench, Readings } from '../areas/explore/Bench.tsx';
import { Dock } from '../areas/explore/Dock.tsx';
import { FlankMaps } from '../areas/explore/FlankMaps.tsx';
import { PatternSummary } from '../areas/explore/PatternSummary.tsx';
import { useNotices } from '../state/notices.ts';
import { preferencesLoad, usePreferences } from '../state/preferences.ts';
import type { Locale } from '../text/translate.ts';
import { TextContext, translateFor, useText } from '../text/useText.ts';
import styles from './App.module.css';
import { Notices } from './Notices.tsx';
import { PictureFrame } from './PictureFrame.tsx';
import { AboutSheet } from './sheets/AboutSheet.tsx';
import { HelpSheet } from './sheets/HelpSheet.tsx';
import { SettingsSheet } from './sheets/SettingsSheet.tsx';
import { ShareSheet } from './sheets/ShareSheet.tsx';
import { shortcutsOf, useShortcuts } from './shortcuts.ts';
import { type SheetName, TopBar } from './TopBar.tsx';
import { useMediaQuery } from './useMediaQuery.ts';
import { useTheme } from './useTheme.ts';

/** A phone: one control at a time, at the bottom. */
const PHONE = '(max-width: 700px)';
/** Everything fits beside the picture. */
const ROOMY = '(min-width: 1024px) and (min-height: 1000px)';

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
  const roomy = useMediaQuery(ROOMY);
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
        <main className={styles.work}>
          <h2 className="visually-hidden">{t('explore.title')}</h2>
          <div className={styles.picture}>
            <Notices key="notices" />
            {phone
              ? [<FlankMaps key="maps" />, <PictureFrame key="picture" theme={theme} />]
              : [<PictureFrame key="picture" theme={theme} />, <FlankMaps key="maps" />]}
          </div>
          {phone ? (
            <>
              <div className={styles.more}>
                <Readings />
              </div>
              <Dock />
            </>
          ) : (
            <div className={styles.side}>
              <Bench roomy={roomy} />
            </div>
          )}
          <PatternSummary />
        </main>
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
