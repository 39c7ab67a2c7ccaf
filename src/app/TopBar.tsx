import { useStore } from 'zustand';
import { AxleChooser } from '../areas/explore/AxleChooser.tsx';
import { AREAS, useArea } from '../state/area.ts';
import { useLook } from '../state/look.ts';
import type { Theme } from '../state/preferences.ts';
import { useSetup } from '../state/setup.ts';
import { useText } from '../text/useText.ts';
import styles from './TopBar.module.css';
import { UnitsChoice } from './UnitsChoice.tsx';
import { IconButton } from './ui/controls.tsx';
import { undoHere } from './undoHere.ts';
import { Wordmark } from './Wordmark.tsx';

export type SheetName = 'settings' | 'help' | 'about' | 'share';

export interface TopBarProps {
  readonly theme: Theme;
  readonly onToggleTheme: () => void;
  readonly onOpen: (sheet: SheetName) => void;
}

export function TopBar({ theme, onToggleTheme, onOpen }: TopBarProps) {
  const t = useText();
  return (
    <header className={styles.bar}>
      <Wordmark />
      <Areas />
      <div className={styles.axle}>
        <AxleChooser />
      </div>
      <div className={styles.tools}>
        <UndoRedo />
        <div className={styles.units}>
          <UnitsChoice name="units-bar" />
        </div>
        <div className={styles.wide}>
          <IconButton
            icon="lamp"
            label={t(theme === 'workshop' ? 'app.theme.toProjector' : 'app.theme.toWorkshop')}
            onPress={onToggleTheme}
          />
          <IconButton icon="share" label={t('app.share')} onPress={() => onOpen('share')} />
          <IconButton icon="help" label={t('app.help')} onPress={() => onOpen('help')} />
        </div>
        <IconButton icon="settings" label={t('app.settings')} onPress={() => onOpen('settings')} />
      </div>
    </header>
  );
}

/** The work areas; each keeps its state while another is worked in. */
function Areas() {
  const t = useText();
  const here = useArea((state) => state.area);
  return (
    <nav className={styles.areas} aria-label={t('app.area.choose')}>
      {AREAS.map((area) => (
        <button
          key={area}
          type="button"
          className={styles.area}
          aria-current={area === here ? 'page' : undefined}
          onClick={() => useArea.getState().go(area)}
        >
          {t(`app.area.${area}`)}
        </button>
      ))}
    </nav>
  );
}

/** Each area takes back its own steps. */
function UndoRedo() {
  const t = useText();
  const matching = useArea((state) => state.area === 'match');
  const setups = useStore(useSetup.temporal);
  const looks = useStore(useLook.temporal);
  const { pastStates, futureStates } = matching ? looks : setups;
  return (
    <>
      <IconButton
        icon="undo"
        label={t('app.undo')}
        disabled={pastStates.length === 0}
        onPress={() => undoHere(-1)}
      />
      <IconButton
        icon="redo"
        label={t('app.redo')}
        disabled={futureStates.length === 0}
        onPress={() => undoHere(1)}
      />
    </>
  );
}
