import { memo, useMemo } from 'react';
import type { LargerMoves } from '../../../sim/worker/longProtocol.ts';
import { Choice, IconButton } from '../../app/ui/controls.tsx';
import { RulerSlider } from '../../app/ui/RulerSlider.tsx';
import { useText } from '../../text/useText.ts';
import styles from './HousingStage.module.css';
import { HOUSING_HOMES, type HousingHome } from './housingHomes.ts';
import { sayTimes } from './partWords.ts';

export interface HousingToolbarProps {
  /** null: there is no camera */
  readonly home: HousingHome | null;
  readonly onHome: (home: HousingHome) => void;
  readonly labels: boolean;
  readonly onLabels: (labels: boolean) => void;
  /** null: not known yet */
  readonly larger: LargerMoves | null;
  readonly factor: number;
  readonly onFactor: (factor: number) => void;
}

/** Whole factors, and the last one that bodies allow. */
function factorSteps(largest: number): readonly number[] {
  const steps = [1];
  for (let times = 2; times <= largest + 1e-6; times++) steps.push(times);
  if (largest - steps[steps.length - 1] > 0.05) steps.push(largest);
  return steps;
}

export const HousingToolbar = memo(function HousingToolbar(props: HousingToolbarProps) {
  const t = useText();
  const { home, labels, larger, factor } = props;
  const largest = larger?.largest ?? 1;
  const steps = useMemo(() => factorSteps(largest), [largest]);
  return (
    <div className={styles.bar}>
      {home !== null && (
        <Choice
          label={t('housing.homes')}
          name="housing-home"
          options={HOUSING_HOMES.map((value) => ({ value, text: t(`housing.home.${value}`) }))}
          value={home}
          onChoose={props.onHome}
        />
      )}
      {home !== null && (
        <IconButton label={t('housing.back')} icon="reset" onPress={() => props.onHome(home)} />
      )}
      <button
        type="button"
        className={styles.toggle}
        aria-pressed={labels}
        onClick={() => props.onLabels(!labels)}
      >
        {t('housing.labels')}
      </button>
      <div className={styles.larger}>
        <span className={styles.largerName} aria-hidden={steps.length > 1}>
          {t('housing.larger')} <b>{t('housing.larger.value', { times: sayTimes(factor) })}</b>
        </span>
        {steps.length > 1 && (
          <RulerSlider
            label={t('housing.larger')}
            positions={steps}
            value={factor}
            valueText={t('housing.larger.text', { times: sayTimes(factor) })}
            leastText={t('housing.larger.true')}
            mostText={
              larger?.endedBy === 'teeth'
                ? t('housing.larger.touch')
                : t('housing.larger.value', { times: sayTimes(largest) })
            }
            onPreview={props.onFactor}
            onCommit={nothing}
          />
        )}
      </div>
    </div>
  );
});

/** How large moves are drawn is no part of the set-up: there is nothing to keep. */
const nothing = (): void => {};
