import { useText } from '../../text/useText.ts';
import styles from './HousingStage.module.css';
import type { HousingState } from './housingScene.ts';
import { sayTimes } from './partWords.ts';

export interface LargerWordsProps {
  readonly state: HousingState | null;
}

/** How much larger the moves can be drawn, and why no more. */
export function LargerWords({ state }: LargerWordsProps) {
  const t = useText();
  if (state === null) return null;
  if (state.notFound) return <p className={styles.words}>{t('housing.failed')}</p>;
  const { pose, larger } = state;
  const moved = Math.abs(pose.pinionIn) > 1e-6 || Math.abs(pose.ringAway) > 1e-6;
  const { largest, endedBy } = larger;
  const words =
    endedBy === 'teeth' && largest < 1
      ? largest < 1e-6
        ? t('housing.larger.bindsAtDesign')
        : t('housing.larger.binds', { percent: Math.round(100 * largest) })
      : !moved
        ? t('housing.larger.design')
        : endedBy === 'teeth'
          ? t('housing.larger.touches', { times: sayTimes(largest) })
          : t('housing.larger.most', { times: sayTimes(largest) });
  return (
    <p className={styles.words} data-binds={endedBy === 'teeth' && largest < 1}>
      {words}
    </p>
  );
}
