import { Icon } from '../../app/ui/Icon.tsx';
import { SHIM_DIGITS, useLengths } from '../../app/ui/useLengths.ts';
import { axleOf } from '../../state/axles.ts';
import { useMesh } from '../../state/mesh.ts';
import { useText } from '../../text/useText.ts';
import { verdictWords } from './BacklashPanel.tsx';
import { judgeBacklash } from './backlash.ts';
import styles from './Dock.module.css';

/** The backlash in one line, always in sight on a phone. */
export function BacklashLine() {
  const t = useText();
  const lengths = useLengths();
  const shown = useMesh((state) => state.shown);
  if (shown === null) return <p className={styles.line}>{t('explore.backlash.waiting')}</p>;
  const limits = axleOf(shown.axleId).axle.limits.backlash;
  const reading = judgeBacklash(shown.result.backlash, limits);
  return (
    <p className={styles.line} data-verdict={reading.verdict}>
      <span className={styles.lineName}>{t('explore.backlash.short')}</span>
      <strong className={`${styles.lineReading} numbers`}>
        {reading.least === null ? '–' : lengths.say(reading.least, SHIM_DIGITS)}
      </strong>
      <span className={styles.lineWords}>
        <Icon name={reading.verdict === 'inside' ? 'check' : 'caution'} size={16} />
        <span>{verdictWords(reading, t, lengths)}</span>
      </span>
    </p>
  );
}
