import { FlankMapKey } from '../../flank/FlankMapKey.tsx';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { useText } from '../../text/useText.ts';
import type { Shortcut } from '../shortcuts.ts';
import { Sheet } from '../ui/Sheet.tsx';
import styles from './sheets.module.css';

export interface HelpSheetProps {
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
  readonly shortcuts: readonly Shortcut[];
}

export function HelpSheet({ open, onOpenChange, shortcuts }: HelpSheetProps) {
  const t = useText();
  const singleKeys = usePreferences((state) => state.singleKeys);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  const units = usePreferences((state) => state.units);
  return (
    <Sheet title={t('app.help')} open={open} onOpenChange={onOpenChange}>
      <h3 className={styles.heading}>{t('flank.key.name')}</h3>
      <div className={styles.paper}>
        <FlankMapKey
          compoundColour={COMPOUND_COLOURS[compound]}
          contourUnit={units === 'in' ? t('explore.unit.thou') : t('explore.unit.micron')}
        />
      </div>
      <h3 className={styles.heading}>{t('app.keys.title')}</h3>
      <p className={styles.text}>{t('app.keys.intro')}</p>
      {!singleKeys && <p className={styles.text}>{t('app.keys.off')}</p>}
      <table className={styles.keys}>
        <tbody>
          {shortcuts.map((shortcut) => (
            <tr key={shortcut.keys}>
              <th scope="row">
                {shortcut.shown.map((key) => (
                  <kbd key={key}>{key}</kbd>
                ))}
              </th>
              <td>{t(shortcut.text)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className={styles.text}>{t('stage.view.keys')}</p>
    </Sheet>
  );
}
