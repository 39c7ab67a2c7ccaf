import { Fragment, lazy, type ReactNode, Suspense } from 'react';
import { FLANKS } from '../../../sim/worker/protocol.ts';
import { CONTOUR_LEVELS } from '../../flank/contourLevels.ts';
import { FlankMap, type MapFrame } from '../../flank/FlankMap.tsx';
import { axleOf } from '../../state/axles.ts';
import { useDial } from '../../state/dial.ts';
import { useMesh } from '../../state/mesh.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { useTraces } from '../../state/traces.ts';
import { useUnknowns } from '../../state/unknowns.ts';
import { useView } from '../../state/view.ts';
import { useText } from '../../text/useText.ts';
import { formatNumber } from '../../units/format.ts';
import { mmToThou } from '../../units/length.ts';
import styles from './explore.module.css';
import { MapsFoot } from './MapsFoot.tsx';
import { useSpreadWhile } from './unknowns/useSpreadWhile.ts';
import { usePatchMovesWhile } from './usePatchMovesWhile.ts';

const MapLayers = lazy(async () => ({ default: (await import('./MapLayers.tsx')).MapLayers }));
const MoveKey = lazy(async () => ({ default: (await import('./MoveKey.tsx')).MoveKey }));
const SpreadKey = lazy(async () => ({ default: (await import('./unknowns/SpreadKey.tsx')).SpreadKey }));

const inThou = (mm: number): string => formatNumber(mmToThou(mm), 2);

const layersOver = (frame: MapFrame): ReactNode => (
  <Suspense fallback={null}>
    <MapLayers frame={frame} />
  </Suspense>
);

/** Both flanks of the ring tooth on paper. */
export function FlankMaps() {
  const t = useText();
  const shown = useMesh((state) => state.shown);
  const contours = useView((state) => state.contours);
  const arrows = useView((state) => state.arrows);
  const traced = useTraces((state) => state.trail.length > 0);
  const traces = usePreferences((state) => state.traces);
  const placed = useDial((state) => state.place !== null);
  const units = usePreferences((state) => state.units);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  const isOwn = shown !== null && axleOf(shown.axleId).key !== null;
  const varied = useUnknowns((state) => state.on) && isOwn;
  usePatchMovesWhile(arrows);
  useSpreadWhile(varied);
  return (
    <section
      className={styles.maps}
      id="flank-maps"
      aria-label={t('explore.maps')}
      tabIndex={-1}
      data-keys={arrows || varied ? '' : undefined}
    >
      {FLANKS.map((flank) =>
        shown === null ? (
          <div key={flank} className={styles.blankMap}>
            {t(`flank.name.${flank}`)}
          </div>
        ) : (
          <Fragment key={flank}>
            <FlankMap
              flank={flank}
              outline={shown.loaded.outline}
              hand={axleOf(shown.axleId).axle.hand}
              result={shown.result}
              compoundColour={COMPOUND_COLOURS[compound]}
              contourLevels={contours ? CONTOUR_LEVELS : undefined}
              formatSeparation={units === 'in' ? inThou : undefined}
            >
              {arrows || placed || varied || (traces && traced) ? layersOver : undefined}
            </FlankMap>
            {(arrows || varied) && (
              <div className={styles.mapKeys}>
                <Suspense fallback={<p className={styles.keyWaiting} />}>
                  {arrows && <MoveKey flank={flank} />}
                  {varied && <SpreadKey flank={flank} />}
                </Suspense>
              </div>
            )}
          </Fragment>
        ),
      )}
      <MapsFoot />
    </section>
  );
}
