import { useEffect, useState } from 'react';
import { useText } from '../text/useText.ts';
import type { StageHome } from './camera/homes.ts';
import { StageToolbar } from './controls/StageToolbar.tsx';
import { StageDriver } from './driver.ts';
import stage from './GearStage.module.css';
import { type StageLook, type StageSet, StageView } from './StageView.tsx';
import styles from './TwinStage.module.css';
import { useStageControls } from './useStageControls.ts';

/** One side of the comparison. */
export interface TwinSide extends StageSet {
  /** what stands there, above the picture and for screen readers */
  readonly label: string;
}

export interface TwinStageProps extends StageLook {
  readonly left: TwinSide;
  readonly right: TwinSide;
  /** both cameras move when one is moved */
  readonly linked: boolean;
  readonly home: StageHome;
  readonly onHome?: (home: StageHome) => void;
}

/**
 * Two gear sets side by side under one toolbar. They roll pitch by pitch together; linked, each looks at its own set as
 * the other does. A reverse-cut set beside a standard one is looked at as in a mirror.
 */
export function TwinStage({ left, right, linked, home: homeAsked, onHome, ...look }: TwinStageProps) {
  const t = useText();
  // the right one rolls, the left one keeps step
  const [drivers] = useState(() => [new StageDriver(homeAsked), new StageDriver(homeAsked)]);
  const [rightDriver, leftDriver] = drivers;
  const controls = useStageControls(drivers, homeAsked, onHome);

  useEffect(() => {
    rightDriver.onMoved = (what) => {
      if (what === 'roll') leftDriver.followRoll(rightDriver);
      else if (linked) leftDriver.followCamera(rightDriver);
    };
    leftDriver.onMoved = (what) => {
      if (what === 'camera' && linked) rightDriver.followCamera(leftDriver);
    };
    return () => {
      for (const driver of [leftDriver, rightDriver]) driver.onMoved = () => {};
    };
  }, [leftDriver, rightDriver, linked]);

  // a set that comes later, or is exchanged, joins the other where that stands
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new left set must follow
  useEffect(() => {
    leftDriver.followRoll(rightDriver);
    if (linked) leftDriver.followCamera(rightDriver);
  }, [leftDriver, rightDriver, linked, left.solids]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new right set must follow
  useEffect(() => {
    leftDriver.followRoll(rightDriver);
    if (linked) rightDriver.followCamera(leftDriver);
  }, [right.solids]);

  // low pictures: the names above them are caption enough
  const view = { ...look, home: controls.home, labels: controls.labels, caption: false };
  const acts = { onPlay: controls.togglePlaying, onHome: controls.backHome };
  return (
    <section className={stage.stage} aria-label={t('stage.twin.label')}>
      <div className={styles.pair}>
        <div className={styles.side} data-side="left">
          <p className={styles.name}>{left.label}</p>
          <StageView {...view} {...acts} {...left} driver={leftDriver} />
        </div>
        <div className={styles.side} data-side="right">
          <p className={styles.name}>{right.label}</p>
          <StageView {...view} {...acts} {...right} driver={rightDriver} onRoll={controls.showRoll} />
        </div>
      </div>
      <StageToolbar {...controls.toolbar} teeth={right.solids?.ring.count ?? 1} />
    </section>
  );
}
