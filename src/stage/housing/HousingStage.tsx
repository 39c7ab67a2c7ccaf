import { type PointerEvent, useCallback, useEffect, useId, useMemo, useRef, useState } from 'react';
import type { Fitment } from '../../../sim/assembly/hardware.ts';
import type { GearSolids, SolidDetail } from '../../../sim/gearset/solids.ts';
import { useText } from '../../text/useText.ts';
import type { LengthUnit } from '../../units/length.ts';
import { useHands, useKeys } from '../camera/useHands.ts';
import type { PaintColours, StageTheme } from '../scene/colours.ts';
import { usePrefersReducedMotion } from '../usePrefersReducedMotion.ts';
import { canDraw } from '../webgl.ts';
import { HousingCanvas } from './HousingCanvas.tsx';
import { HousingLabels, type HousingLabelsHandle } from './HousingLabels.tsx';
import styles from './HousingStage.module.css';
import { HousingToolbar } from './HousingToolbar.tsx';
import { HousingDriver } from './housingDriver.ts';
import type { HousingHome } from './housingHomes.ts';
import type { HousingState } from './housingScene.ts';
import { LargerWords } from './LargerWords.tsx';
import type { HousingLayout } from './layout.ts';
import { PartList } from './PartList.tsx';
import type { PartName } from './parts.ts';
import { describeParts, describePushes, sayTimes } from './partWords.ts';
import { movesOf, placesOf } from './places.ts';
import { SectionDrawing } from './SectionDrawing.tsx';

/** One axle to show: its gears as solids and what is laid out round them. A new object shows a new axle. */
export interface HousingAxle {
  readonly solids: GearSolids;
  readonly detail: SolidDetail;
  readonly layout: HousingLayout;
}

export interface HousingStageProps {
  /** null while the solids are being made */
  readonly axle: HousingAxle | null;
  /** what is fitted now: what the words say */
  readonly fitment: Fitment | null;
  /** what was fitted when its answers came: what is drawn; null: none yet */
  readonly state: HousingState | null;
  readonly unit: LengthUnit;
  readonly colours: PaintColours;
  readonly theme: StageTheme;
}

/** Moves are drawn this many times larger to begin with, or as much as bodies allow. */
const FIRST_TIMES = 10;
/** CSS pixels a finger may slip and still mean the part under it */
const SLIP = 6;

/**
 * The axle cut open, with the list of its parts.
 *
 * The element that holds the picture carries data attributes, for tests, once it is at rest (`data-settled="true"`):
 * `data-view-projection` (16 numbers, column by column, world mm → clip space), `data-triangles`, `data-calls`,
 * `data-factor` (how many times larger moves are drawn), `data-chosen` (the part brought forward).
 */
export function HousingStage({ axle, fitment, state, unit, colours, theme }: HousingStageProps) {
  const t = useText();
  const keysId = useId();
  const [driver] = useState(() => new HousingDriver());
  const surface = useRef<HTMLDivElement>(null);
  const legend = useRef<HTMLParagraphElement>(null);
  const labelLayer = useRef<HousingLabelsHandle>(null);
  const [drawable, setDrawable] = useState(canDraw);
  const [lost, setLost] = useState(false);
  const [attempt, setAttempt] = useState(0);
  const [home, setHome] = useState<HousingHome>('whole');
  const [labels, setLabels] = useState(true);
  const [wanted, setWanted] = useState(FIRST_TIMES);
  const [pointed, setPointed] = useState<PartName | null>(null);
  const [selected, setSelected] = useState<PartName | null>(null);
  const chosen = pointed ?? selected;
  const reducedMotion = usePrefersReducedMotion();

  const layout = axle?.layout ?? null;
  const parts = useMemo(
    () => (layout === null || fitment === null ? [] : describeParts(layout, fitment, unit, t)),
    [layout, fitment, unit, t],
  );
  const pushes = useMemo(() => (layout === null ? null : describePushes(layout, t)), [layout, t]);
  const largest = state?.larger.largest ?? 1;
  const factor = Math.min(wanted, largest);
  const flat = !drawable;
  const drawn = state?.fitment ?? fitment;
  const places = useMemo(
    () =>
      flat && layout !== null && drawn !== null
        ? placesOf(layout, movesOf(layout.hardware, drawn), factor, drawn)
        : null,
    [flat, layout, drawn, factor],
  );

  useEffect(() => () => driver.dispose(), [driver]);
  useEffect(() => {
    driver.reducedMotion = reducedMotion;
  }, [driver, reducedMotion]);
  useEffect(() => {
    if (axle !== null) driver.setAxle(axle.solids, axle.detail, axle.layout);
  }, [driver, axle]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new axle takes the state anew
  useEffect(() => {
    driver.scene.setState(state, wanted);
    driver.wake();
  }, [driver, state, wanted, axle]);
  const { compound, mark } = colours;
  useEffect(() => {
    driver.scene.setColours({ compound, mark });
    driver.scene.setTheme(theme);
    driver.wake();
  }, [driver, compound, mark, theme]);
  useEffect(() => {
    driver.scene.setChosen(chosen);
    driver.wake();
  }, [driver, chosen]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of labels must be drawn
  useEffect(() => driver.wake(), [driver, labels, parts]);

  const goHome = useCallback(
    (to: HousingHome) => {
      driver.goHome(to);
      setHome(to);
    },
    [driver],
  );
  useHands(surface, driver);
  const keys = useKeys(
    driver,
    nothing,
    useCallback(() => goHome(driver.home), [driver, goHome]),
  );

  const pressed = useRef({ x: 0, y: 0 });
  const under = (event: PointerEvent<HTMLElement>): PartName | null => {
    const { camera } = driver;
    if (camera === null) return null;
    const box = event.currentTarget.getBoundingClientRect();
    return driver.scene.pick(
      ((event.clientX - box.left) / box.width) * 2 - 1,
      1 - ((event.clientY - box.top) / box.height) * 2,
      camera,
    );
  };
  return (
    <section className={styles.frame} aria-label={t('housing.region')}>
      <div className={styles.stage}>
        {flat ? (
          <div className={styles.view} data-flat="true">
            {layout !== null && places !== null && pushes !== null && (
              <SectionDrawing
                layout={layout}
                places={places}
                mirrored={layout.mirrored}
                parts={parts}
                pushes={pushes}
                labels={labels}
                chosen={chosen}
                onPoint={setPointed}
                onChoose={(name) => setSelected((before) => (before === name ? null : name))}
              />
            )}
            <p className={styles.note} role="status">
              {t('housing.flat.why')}
            </p>
          </div>
        ) : (
          // biome-ignore lint/a11y/useSemanticElements: not a form's group
          <div
            ref={surface}
            className={styles.view}
            role="group"
            aria-label={t('housing.view')}
            aria-describedby={keysId}
            data-chosen={chosen ?? ''}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: the picture is turned by keys
            tabIndex={0}
            onKeyDown={keys}
            onPointerDown={(event) => {
              pressed.current = { x: event.clientX, y: event.clientY };
            }}
            onPointerMove={(event) => {
              if (event.pointerType === 'mouse' && event.buttons === 0) setPointed(under(event));
            }}
            onPointerLeave={() => setPointed(null)}
            onPointerUp={(event) => {
              const { x, y } = pressed.current;
              if (Math.hypot(event.clientX - x, event.clientY - y) > SLIP) return;
              const part = under(event);
              setSelected((before) => (before === part ? null : part));
            }}
          >
            <div className={styles.drawing}>
              <HousingCanvas
                key={attempt}
                driver={driver}
                surface={surface}
                labels={labelLayer}
                densest={axle?.detail === 'full' ? 2 : 1}
                onLost={() => setLost(true)}
                onRestored={() => setLost(false)}
                onBroken={() => setDrawable(false)}
              />
            </div>
            {!lost && (
              <HousingLabels
                ref={labelLayer}
                driver={driver}
                layout={layout}
                parts={parts}
                pushes={pushes}
                shown={labels}
                chosen={chosen}
                legend={legend}
              />
            )}
            {!lost && layout !== null && (
              <p ref={legend} className={styles.legend}>
                <b>{t('housing.legend.moves', { times: sayTimes(factor) })}</b>
                <span className={styles.mark}>{t('housing.legend.design')}</span>
                <span>{t('housing.legend.paint')}</span>
              </p>
            )}
            {(lost || layout === null) && (
              <div className={styles.message}>
                <p role="status">{t(lost ? 'housing.lost' : 'housing.waiting')}</p>
                {lost && (
                  <button
                    type="button"
                    className={styles.again}
                    onClick={() => {
                      setAttempt((n) => n + 1);
                      setLost(false);
                    }}
                  >
                    {t('housing.again')}
                  </button>
                )}
              </div>
            )}
            <p id={keysId} className="visually-hidden">
              {t('housing.view.keys')}
            </p>
          </div>
        )}
        <HousingToolbar
          home={flat ? null : home}
          onHome={goHome}
          labels={labels}
          onLabels={setLabels}
          larger={state?.larger ?? null}
          factor={factor}
          onFactor={setWanted}
        />
      </div>
      <div className={`${styles.side} fades`}>
        <LargerWords state={state} />
        <PartList parts={parts} selected={selected} onSelect={setSelected} onPoint={setPointed} />
      </div>
    </section>
  );
}

/** There is nothing to roll here. */
const nothing = (): void => {};
