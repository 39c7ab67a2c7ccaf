import { memo } from 'react';
import { useText } from '../text/useText.ts';
import { OFF_HOME_STEPS } from './regions.ts';
import styles from './ShimMap.module.css';

const PERCENT = OFF_HOME_STEPS.map((step) => Math.round(step * 100));

/** The colours of the map and what they stand for. */
export const OffHomeScale = memo(function OffHomeScale({ title }: { readonly title: string }) {
  const t = useText();
  const last = PERCENT.length;
  return (
    <div className={styles.scale}>
      <p>{title}</p>
      <div className={`${styles.swatches} numbers`}>
        {[0, ...PERCENT].map((from, band) => (
          <span key={from} className={styles.swatch} data-band={band}>
            {band === last
              ? t('shimMap.scale.over', { from })
              : t('shimMap.scale.band', { from, to: PERCENT[band] })}
          </span>
        ))}
      </div>
    </div>
  );
});
