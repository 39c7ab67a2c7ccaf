import { useEffect, useId, useMemo, useRef, useState } from 'react';
import type { GearSolids, SolidDetail } from '../../sim/gearset/solids.ts';
import type { SolveResult } from '../../sim/worker/protocol.ts';
import { useText } from '../text/useText.ts';
import { type StageHome, squareFlank } from './camera/homes.ts';
import { useHands, useKeys } from './camera/useHands.ts';
import type { StageDriver } from './driver.ts';
import styles from './GearStage.module.css';
import { LabelLayer, type LabelLayerHandle } from './labels/LabelLayer.tsx';
import { StageCanvas, type StageStats } from './StageCanvas.tsx';
import type { PaintColours, StageTheme } from './scene/colours.ts';
import type { PaintedTeeth } from './scene/stageScene.ts';
import { usePrefersReducedMotion } from './usePrefersReducedMotion.ts';
import { canDraw } from './webgl.ts';

/** Why the stage shows no picture; null when it draws (again). */
export type StageFailure = { readonly kind: 'missing' } | { readonly kind: 'lost' };

/** A gear set as a stage is given it. */
export interface StageSet {
  /** triangle meshes of the gear set, or null while they are being made; a new object shows a new set */
  readonly solids: GearSolids | null;
  /** the last pose solved for that set, or null; paint, contact lines and the place of the pinion come from it */
  readonly solution: SolveResult | null;
  /** mm, offset of the gear set's definition */
  readonly offset: number;
  /** true for a reverse-cut set: everything is drawn mirrored (y → −y) */
  readonly mirrored: boolean;
}

/** How a stage is drawn. */
export interface StageLook {
  /** colours of the compound and of what shows where it is rubbed off, exactly as they come on the screen */
  readonly colours: PaintColours;
  readonly theme: StageTheme;
  /** the detail the solids were made with; reduced also draws at no more than one pixel per CSS pixel */
  readonly detail?: SolidDetail;
  /** teeth that carry compound */
  readonly painted?: PaintedTeeth;
}

export interface StageViewProps extends StageSet, StageLook {
  readonly driver: StageDriver;
  /** names the picture for screen readers */
  readonly label: string;
  readonly home: StageHome;
  readonly labels: boolean;
  /** whether a square-on picture says what is taken away; true when left out */
  readonly caption?: boolean;
  readonly onPlay: () => void;
  readonly onHome: () => void;
  readonly onRoll?: ((ringAngle: number) => void) | undefined;
  readonly onStats?: ((stats: StageStats) => void) | undefined;
  readonly onFailure?: ((failure: StageFailure | null) => void) | undefined;
}

/** ms a lost context may take to come back by itself */
const PATIENCE = 2500;

/**
 * One picture of ring and pinion, turned by hand and by keys, with what stands there when it cannot be drawn.
 *
 * The element that holds the picture carries data attributes, for tests and for the bench, once it is at rest
 * (`data-settled="true"`): `data-view-projection` (16 numbers, column by column, world mm → clip space),
 * `data-tooth` (number of the ring tooth looked at), `data-tooth-angle` (rad about z by which that tooth stands turned
 * from the ring sector at rest; mirror y after turning when the set is reverse-cut), `data-triangles`, `data-calls`.
 */
export function StageView({
  driver,
  label,
  solids,
  solution,
  offset,
  mirrored,
  colours,
  theme,
  detail = 'full',
  painted = 'all',
  home,
  labels,
  caption = true,
  onPlay,
  onHome,
  onRoll,
  onStats,
  onFailure,
}: StageViewProps) {
  const t = useText();
  const keysId = useId();
  const surface = useRef<HTMLDivElement>(null);
  const labelLayer = useRef<LabelLayerHandle>(null);
  const [failure, setFailure] = useState<StageFailure | null>(() => (canDraw() ? null : { kind: 'missing' }));
  const [attempt, setAttempt] = useState(0);
  const [tooth, setTooth] = useState(0);
  const reducedMotion = usePrefersReducedMotion();

  const report = useRef({ onRoll, onStats, onFailure });
  useEffect(() => {
    report.current = { onRoll, onStats, onFailure };
  });

  useEffect(() => report.current.onFailure?.(failure), [failure]);
  useEffect(() => () => driver.dispose(), [driver]);

  useEffect(() => {
    driver.reducedMotion = reducedMotion;
  }, [driver, reducedMotion]);

  useEffect(() => {
    if (solids === null) return;
    driver.setSolids(solids, offset, mirrored);
  }, [driver, solids, offset, mirrored]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new set and a new home choose the tooth looked at
  useEffect(() => setTooth(driver.tooth), [driver, solids, home]);

  useEffect(() => {
    if (solution === null) driver.scene.clearSolution();
    else driver.scene.setSolution(solution);
    driver.wake();
  }, [driver, solution]);

  const { compound, mark } = colours;
  useEffect(() => {
    driver.scene.setColours({ compound, mark });
    driver.scene.setTheme(theme);
    driver.wake();
  }, [driver, compound, mark, theme]);

  useEffect(() => {
    driver.scene.setPainted(painted);
    driver.wake();
  }, [driver, painted]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of labels must be drawn
  useEffect(() => driver.wake(), [driver, labels]);

  useEffect(() => {
    const look = () => {
      driver.suspended = document.hidden;
      if (!document.hidden) driver.wake();
    };
    document.addEventListener('visibilitychange', look);
    return () => document.removeEventListener('visibilitychange', look);
  }, [driver]);

  useHands(surface, driver);
  const keys = useKeys(driver, onPlay, onHome);

  const canvasReports = useMemo(
    () => ({
      onRoll: (ringAngle: number) => report.current.onRoll?.(ringAngle),
      onStats: (stats: StageStats) => report.current.onStats?.(stats),
      onLost: () => setFailure({ kind: 'lost' }),
      onRestored: () => setFailure(null),
      onBroken: () => setFailure({ kind: 'missing' }),
    }),
    [],
  );

  const [late, setLate] = useState(false);
  useEffect(() => {
    setLate(false);
    if (failure?.kind !== 'lost') return;
    const timer = setTimeout(() => setLate(true), PATIENCE);
    return () => clearTimeout(timer);
  }, [failure]);

  const again = () => {
    setAttempt((n) => n + 1);
    setFailure(null);
  };

  const flank = squareFlank(home);
  return (
    // biome-ignore lint/a11y/useSemanticElements: not a form's group
    <div
      ref={surface}
      className={styles.view}
      role="group"
      aria-label={label}
      aria-describedby={keysId}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the picture is turned by keys
      tabIndex={0}
      onKeyDown={keys}
    >
      {failure?.kind !== 'missing' && (
        <div className={styles.drawing}>
          <StageCanvas
            key={attempt}
            driver={driver}
            surface={surface}
            labels={labelLayer}
            densest={detail === 'full' ? 2 : 1}
            {...canvasReports}
          />
        </div>
      )}
      {failure === null && <LabelLayer ref={labelLayer} driver={driver} shown={labels} />}
      {caption && failure === null && flank !== null && solids !== null && (
        <p className={styles.caption}>
          <b>{t(`stage.caption.${flank}`, { tooth: tooth + 1 })}</b> <span>{t('stage.caption.away')}</span>
        </p>
      )}
      {failure === null && solids === null && (
        <div className={styles.message}>
          <p role="status">{t('stage.waiting')}</p>
        </div>
      )}
      {failure !== null && (
        <div className={styles.message}>
          <p role="status">
            {t(failure.kind === 'missing' ? 'stage.failure.missing' : 'stage.failure.lost')}
          </p>
          {failure.kind === 'lost' && late && (
            <button type="button" className={styles.again} onClick={again}>
              {t('stage.failure.again')}
            </button>
          )}
        </div>
      )}
      <p id={keysId} className="visually-hidden">
        {t('stage.view.keys')}
      </p>
    </div>
  );
}
