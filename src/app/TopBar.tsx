import { useStore } from 'zustand';
import { AxleChooser } from '../areas/explore/AxleChooser.tsx';
import type { Theme } from '../state/preferences.ts';
import { redoSetup, undoSetup, useSetup } from '../state/setup.ts';
import { useText } from '../text/useText.ts';
import styles from './TopBar.module.css';
import { UnitsChoice } from './UnitsChoice.tsx';
import { IconButton } from './ui/controls.tsx';
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

function UndoRedo() {
  const t = useText();
  const canUndo = useStore(useSetup.temporal, (state) => state.pastStates.length > 0);
  const canRedo = useStore(useSetup.temporal, (state) => state.futureStates.length > 0);
  return (
    <>
      <IconButton icon="undo" label={t('app.undo')} disabled={!canUndo} onPress={undoSetup} />
      <IconButton icon="redo" label={t('app.redo')} disabled={!canRedo} onPress={redoSetup} />
    </>
  );
}
