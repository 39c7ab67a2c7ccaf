import { useCallback, useState } from 'react';
import { useText } from '../text/useText.ts';
import type { StageHome } from './camera/homes.ts';
import { StageToolbar } from './controls/StageToolbar.tsx';
import { StageDriver } from './driver.ts';
import styles from './GearStage.module.css';
import type { StageStats } from './StageCanvas.tsx';
import { type StageFailure, type StageLook, type StageSet, StageView } from './StageView.tsx';
import { useStageControls } from './useStageControls.ts';

export interface GearStageProps extends StageSet, StageLook {
  /** home to start from; changing it sends the camera there */
  readonly home?: StageHome;
  readonly onHome?: (home: StageHome) => void;
  /** ring angle, rad, 0 … 2π, after every frame that turned the ring */
  readonly onRoll?: (ringAngle: number) => void;
  readonly onStats?: (stats: StageStats) => void;
  readonly onFailure?: (failure: StageFailure | null) => void;
}

/** Ring and pinion in three dimensions, with the controls that move the view and roll the gears. */
export function GearStage({
  home: homeAsked = 'whole',
  onHome,
  onRoll,
  onStats,
  onFailure,
  ...shown
}: GearStageProps) {
  const t = useText();
  const [drivers] = useState(() => [new StageDriver(homeAsked)]);
  const controls = useStageControls(drivers, homeAsked, onHome);
  const [missing, setMissing] = useState(false);
  const { showRoll } = controls;
  const rolled = useCallback(
    (ringAngle: number) => {
      showRoll(ringAngle);
      onRoll?.(ringAngle);
    },
    [showRoll, onRoll],
  );
  const failed = useCallback(
    (failure: StageFailure | null) => {
      setMissing(failure?.kind === 'missing');
      onFailure?.(failure);
    },
    [onFailure],
  );
  return (
    <section className={styles.stage} aria-label={t('stage.region.label')}>
      <StageView
        {...shown}
        driver={drivers[0]}
        label={t('stage.view.label')}
        home={controls.home}
        labels={controls.labels}
        onPlay={controls.togglePlaying}
        onHome={controls.backHome}
        onRoll={rolled}
        onStats={onStats}
        onFailure={failed}
      />
      {!missing && <StageToolbar {...controls.toolbar} teeth={shown.solids?.ring.count ?? 1} />}
    </section>
  );
}
