import { useCallback, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { GearSolids, SolidDetail } from '../../sim/gearset/solids.ts';
import type { SolveResult } from '../../sim/worker/protocol.ts';
import { useText } from '../text/useText.ts';
import { type StageHome, squareFlank } from './camera/homes.ts';
import { useHands, useKeys } from './camera/useHands.ts';
import type { RollWheelHandle } from './controls/RollWheel.tsx';
import { SPEEDS, type Speed, StageToolbar } from './controls/StageToolbar.tsx';
import { StageDriver } from './driver.ts';
import styles from './GearStage.module.css';
import { LabelLayer, type LabelLayerHandle } from './labels/LabelLayer.tsx';
import { StageCanvas, type StageStats } from './StageCanvas.tsx';
import type { PaintColours, StageTheme } from './scene/colours.ts';
import type { PaintedTeeth } from './scene/stageScene.ts';
import { usePrefersReducedMotion } from './usePrefersReducedMotion.ts';
import { canDraw } from './webgl.ts';

/** Why the stage shows no picture; null when it draws (again). */
export type StageFailure = { readonly kind: 'missing' } | { readonly kind: 'lost' };

export interface GearStageProps {
  /** triangle meshes of the gear set, or null while they are being made; a new object shows a new set */
  readonly solids: GearSolids | null;
  /** the last pose solved for that set, or null; paint, contact lines and the place of the pinion come from it */
  readonly solution: SolveResult | null;
  /** mm, offset of the gear set's definition */
  readonly offset: number;
  /** true for a reverse-cut set: everything is drawn mirrored (y → −y) */
  readonly mirrored: boolean;
  /** colours of the compound and of what shows where it is rubbed off, exactly as they come on the screen */
  readonly colours: PaintColours;
  readonly theme: StageTheme;
  /** the detail the solids were made with; reduced also draws at no more than one pixel per CSS pixel */
  readonly detail?: SolidDetail;
  /** teeth that carry compound */
  readonly painted?: PaintedTeeth;
  /** home to start from; changing it sends the camera there */
  readonly home?: StageHome;
  readonly onHome?: (home: StageHome) => void;
  /** ring angle, rad, 0 … 2π, after every frame that turned the ring */
  readonly onRoll?: (ringAngle: number) => void;
  readonly onStats?: (stats: StageStats) => void;
  readonly onFailure?: (failure: StageFailure | null) => void;
}

/** How solid the pinion stays when it is seen through. */
const GLASS = 0.22;
/** ms a lost context may take to come back by itself */
const PATIENCE = 2500;

/**
 * Ring and pinion in three dimensions, with the controls that move the view and roll the gears.
 *
 * The element that holds the picture carries data attributes, for tests and for the bench, once it is at rest
 * (`data-settled="true"`): `data-view-projection` (16 numbers, column by column, world mm → clip space),
 * `data-tooth` (number of the ring tooth looked at), `data-tooth-angle` (rad about z by which that tooth stands turned
 * from the ring sector at rest; mirror y after turning when the set is reverse-cut), `data-triangles`, `data-calls`.
 */
export function GearStage({
  solids,
  solution,
  offset,
  mirrored,
  colours,
  theme,
  detail = 'full',
  painted = 'all',
  home: homeAsked = 'whole',
  onHome,
  onRoll,
  onStats,
  onFailure,
}: GearStageProps) {
  const t = useText();
  const keysId = useId();
  const [driver] = useState(() => new StageDriver(homeAsked));
  const surface = useRef<HTMLDivElement>(null);
  const labelLayer = useRef<LabelLayerHandle>(null);
  const wheel = useRef<RollWheelHandle>(null);

  const [home, setHome] = useState<StageHome>(homeAsked);
  const [playing, setPlaying] = useState(false);
  const [speed, setSpeed] = useState<Speed>('middle');
  const [touching, setTouching] = useState<FlankName>('drive');
  // whether the pinion is seen through, kept apart for the two homes that show it
  const [glass, setGlass] = useState({ whole: false, mesh: true });
  const [labels, setLabels] = useState(true);
  const [failure, setFailure] = useState<StageFailure | null>(() => (canDraw() ? null : { kind: 'missing' }));
  const [attempt, setAttempt] = useState(0);
  const [tooth, setTooth] = useState(0);
  const reducedMotion = usePrefersReducedMotion();

  const report = useRef({ onHome, onRoll, onStats, onFailure });
  useEffect(() => {
    report.current = { onHome, onRoll, onStats, onFailure };
  });

  useEffect(() => report.current.onFailure?.(failure), [failure]);
  useEffect(() => () => driver.dispose(), [driver]);

  useEffect(() => {
    driver.reducedMotion = reducedMotion;
  }, [driver, reducedMotion]);

  useEffect(() => {
    if (solids === null) return;
    driver.setSolids(solids, offset, mirrored);
    setTooth(driver.tooth);
  }, [driver, solids, offset, mirrored]);

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

  const goHome = useCallback(
    (to: StageHome) => {
      driver.goHome(to);
      setHome(to);
      setTooth(driver.tooth);
      report.current.onHome?.(to);
    },
    [driver],
  );
  const asked = useRef(homeAsked);
  useEffect(() => {
    if (asked.current === homeAsked) return;
    asked.current = homeAsked;
    goHome(homeAsked);
  }, [homeAsked, goHome]);

  useEffect(() => driver.setPlaying(playing), [driver, playing]);
  useEffect(() => {
    driver.speed = SPEEDS[speed];
  }, [driver, speed]);
  useEffect(() => {
    driver.scene.setTouching(touching);
    driver.wake();
  }, [driver, touching]);
  useEffect(() => driver.setPinionSolidity(glass.whole ? GLASS : 1, glass.mesh ? GLASS : 1), [driver, glass]);
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
  const keys = useKeys(
    driver,
    useCallback(() => setPlaying((before) => !before), []),
    useCallback(() => goHome(driver.home), [driver, goHome]),
  );

  const turn = useCallback(
    (by: number) => {
      setPlaying(false);
      driver.setRingAngle(driver.ringAngle + by);
    },
    [driver],
  );

  const canvasReports = useMemo(
    () => ({
      onRoll: (ringAngle: number) => {
        wheel.current?.show(ringAngle, driver.toothInMesh);
        report.current.onRoll?.(ringAngle);
      },
      onStats: (stats: StageStats) => report.current.onStats?.(stats),
      onLost: () => setFailure({ kind: 'lost' }),
      onRestored: () => setFailure(null),
      onBroken: () => setFailure({ kind: 'missing' }),
    }),
    [driver],
  );

  const [late, setLate] = useState(false);
  useEffect(() => {
    setLate(false);
    if (failure?.kind !== 'lost') return;
    const timer = setTimeout(() => setLate(true), PATIENCE);
    return () => clearTimeout(timer);
  }, [failure]);

  const seeThrough = useCallback(
    (seen: boolean) => setGlass((before) => ({ ...before, [home]: seen })),
    [home],
  );

  const again = () => {
    setAttempt((n) => n + 1);
    setFailure(null);
  };

  const flank = squareFlank(home);
  return (
    <section className={styles.stage} aria-label={t('stage.region.label')}>
      {/* biome-ignore lint/a11y/useSemanticElements: not a form's group */}
      <div
        ref={surface}
        className={styles.view}
        role="group"
        aria-label={t('stage.view.label')}
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
        {failure === null && flank !== null && solids !== null && (
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
      {failure?.kind !== 'missing' && (
        <StageToolbar
          home={home}
          onHome={goHome}
          playing={playing}
          onPlay={setPlaying}
          speed={speed}
          onSpeed={setSpeed}
          touching={touching}
          onTouching={setTouching}
          glass={home === 'whole' || home === 'mesh' ? glass[home] : null}
          onGlass={seeThrough}
          labels={labels}
          onLabels={setLabels}
          teeth={solids?.ring.count ?? 1}
          wheel={wheel}
          onTurn={turn}
        />
      )}
    </section>
  );
}
