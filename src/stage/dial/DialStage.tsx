import { memo, type RefObject, useCallback, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { DialDirection } from '../../../sim/assembly/dial.ts';
import type { GearSolids, SolidDetail } from '../../../sim/gearset/solids.ts';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import type { Rock } from '../../state/rock.ts';
import { useText } from '../../text/useText.ts';
import { dialScale } from '../../units/dialScale.ts';
import type { LengthUnit } from '../../units/length.ts';
import { useHands, useKeys } from '../camera/useHands.ts';
import stageStyles from '../GearStage.module.css';
import { SceneCanvas } from '../SceneCanvas.tsx';
import type { PaintColours, StageTheme } from '../scene/colours.ts';
import { useFrames } from '../useFrames.ts';
import { usePrefersReducedMotion } from '../usePrefersReducedMotion.ts';
import { canDraw } from '../webgl.ts';
import styles from './DialStage.module.css';
import { DIAL_HOMES, DialDriver, type DialHome, type Play, type RingPlace } from './dialDriver.ts';
import { createFaceTexture } from './faceTexture.ts';

export interface DialStageProps {
  readonly solids: GearSolids | null;
  /** the pose the ring is read in */
  readonly solution: SolveResult | null;
  /** mm, offset of the gear set's definition */
  readonly offset: number;
  /** true for a reverse-cut set */
  readonly mirrored: boolean;
  readonly colours: PaintColours;
  readonly theme: StageTheme;
  readonly detail?: SolidDetail;
  readonly direction: DialDirection;
  readonly unit: LengthUnit;
  /** null: nothing to rock within */
  readonly play: Play | null;
  readonly place: RingPlace;
  readonly rock: Rock;
  /** over the picture */
  readonly caption: string;
}

/**
 * Ring, pinion and a dial at the ring's heel in three dimensions. The element that holds the picture carries, for tests,
 * `data-settled`, `data-ring-angle` (rad at drive contact), `data-rocked` (rad) and `data-out` (mm of the plunger).
 */
export function DialStage({
  solids,
  solution,
  offset,
  mirrored,
  colours,
  theme,
  detail = 'full',
  direction,
  unit,
  play,
  place,
  rock,
  caption,
}: DialStageProps) {
  const t = useText();
  const keysId = useId();
  const [driver] = useState(() => new DialDriver());
  const surface = useRef<HTMLDivElement>(null);
  const [home, setHome] = useState<DialHome>('bench');
  const [failure, setFailure] = useState<'missing' | 'lost' | null>(() => (canDraw() ? null : 'missing'));
  const reducedMotion = usePrefersReducedMotion();

  useEffect(() => () => driver.dispose(), [driver]);
  useEffect(() => {
    driver.reducedMotion = reducedMotion;
  }, [driver, reducedMotion]);
  useEffect(() => driver.setDirection(direction), [driver, direction]);
  useEffect(() => driver.setPlace(place), [driver, place]);
  useEffect(() => {
    if (solids !== null) driver.setSolids(solids, offset, mirrored);
  }, [driver, solids, offset, mirrored]);
  useEffect(() => driver.setSolution(solution), [driver, solution]);
  useEffect(() => driver.setPlay(play), [driver, play]);
  const { compound, mark } = colours;
  useEffect(() => driver.setColours({ compound, mark }, theme), [driver, compound, mark, theme]);
  useEffect(() => {
    const scale = dialScale(unit);
    driver.setScale(scale);
    const show = () => {
      const { fontFamily } = getComputedStyle(document.body);
      driver.instrument.setFace(createFaceTexture(scale, fontFamily));
      driver.wake();
    };
    if (canDraw()) show();
  }, [driver, unit]);
  useEffect(() => {
    driver.setShare(rock.share);
    return rock.subscribe(() => driver.setShare(rock.share));
  }, [driver, rock]);
  useEffect(() => {
    const look = () => {
      driver.suspended = document.hidden;
      if (!document.hidden) driver.wake();
    };
    document.addEventListener('visibilitychange', look);
    return () => document.removeEventListener('visibilitychange', look);
  }, [driver]);

  const goHome = useCallback(
    (to: DialHome) => {
      driver.goHome(to);
      setHome(to);
    },
    [driver],
  );
  useHands(surface, driver);
  const keys = useKeys(
    driver,
    useCallback(() => rock.toggle(), [rock]),
    useCallback(() => goHome(driver.home), [driver, goHome]),
  );
  const reports = useMemo(
    () => ({
      onLost: () => setFailure('lost'),
      onRestored: () => {
        setFailure(null);
        driver.wake();
      },
      onBroken: () => setFailure('missing'),
    }),
    [driver],
  );

  return (
    <section className={styles.stage} aria-label={t('dial.stage.region')}>
      {/* biome-ignore lint/a11y/useSemanticElements: not a form's group */}
      <div
        ref={surface}
        className={stageStyles.view}
        role="group"
        aria-label={t('dial.stage.view')}
        aria-describedby={keysId}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the picture is turned by keys
        tabIndex={0}
        onKeyDown={keys}
      >
        {failure !== 'missing' && (
          <div className={stageStyles.drawing}>
            <DialCanvas driver={driver} surface={surface} densest={detail === 'full' ? 2 : 1} {...reports} />
          </div>
        )}
        {failure === null && solids !== null && <p className={styles.caption}>{caption}</p>}
        {failure === null && solids === null && (
          <div className={stageStyles.message}>
            <p role="status">{t('stage.waiting')}</p>
          </div>
        )}
        {failure !== null && (
          <div className={stageStyles.message}>
            <p role="status">{t(failure === 'missing' ? 'dial.stage.missing' : 'dial.stage.lost')}</p>
          </div>
        )}
        <p id={keysId} className="visually-hidden">
          {t('dial.stage.keys')}
        </p>
      </div>
      {failure === null && (
        // biome-ignore lint/a11y/useSemanticElements: buttons, not a form's fields
        <div className={styles.homes} role="group" aria-label={t('stage.homes.label')}>
          {DIAL_HOMES.map((name) => (
            <button
              key={name}
              type="button"
              className={styles.home}
              aria-pressed={home === name}
              onClick={() => goHome(name)}
            >
              {t(`dial.stage.home.${name}`)}
            </button>
          ))}
        </div>
      )}
    </section>
  );
}

interface DialCanvasProps {
  readonly driver: DialDriver;
  readonly surface: RefObject<HTMLElement | null>;
  readonly densest: number;
  readonly onLost: () => void;
  readonly onRestored: () => void;
  readonly onBroken: () => void;
}

const DialCanvas = memo(function DialCanvas(props: DialCanvasProps) {
  const { densest, onLost, onRestored, onBroken, driver } = props;
  return (
    <SceneCanvas {...{ driver, densest, onLost, onRestored, onBroken }}>
      <Frame {...props} />
    </SceneCanvas>
  );
});

function Frame({ driver, surface }: DialCanvasProps) {
  useFrames(driver, surface, (_, element) => {
    if (element === null) return;
    element.dataset.ringAngle = String(driver.ringAngle);
    element.dataset.rocked = String(driver.scene.rock);
    element.dataset.out = String(driver.out);
  });

  return <primitive object={driver.world} />;
}
