import { useEffect, useId, useMemo, useState } from 'react';
import type { WorkerFailure } from '../../../../sim/worker/protocol.ts';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { Legend } from '../../../shimMap/Legend.tsx';
import { isNarrow, plotBox } from '../../../shimMap/layout.ts';
import { MapAxes } from '../../../shimMap/MapAxes.tsx';
import { MapGround } from '../../../shimMap/MapGround.tsx';
import { MapNames } from '../../../shimMap/MapNames.tsx';
import { OffHomeScale } from '../../../shimMap/OffHomeScale.tsx';
import styles from '../../../shimMap/ShimMap.module.css';
import { StockDots } from '../../../shimMap/StockDots.tsx';
import { scalesOf } from '../../../shimMap/scales.ts';
import { useBoxSize } from '../../../shimMap/useBoxSize.ts';
import { useMapFrame } from '../../../shimMap/useMapFrame.ts';
import { longService } from '../../../state/longService.ts';
import { followShimMap } from '../../../state/shimMap.ts';
import { useText } from '../../../text/useText.ts';
import { useAxle } from '../useAxle.ts';
import { MapMarks } from './MapMarks.tsx';
import { Readout } from './Readout.tsx';
import { useCursor } from './useCursor.ts';
import { AXES, useMapModel } from './useMapModel.ts';
import { Working } from './Working.tsx';

export interface ShimMapProps {
  readonly failureWords: (failure: WorkerFailure) => string;
}

/** Pinion shim against side transfer: every state of the axle at once, where it is now, and the way to a better one. */
export function ShimMap({ failureWords }: ShimMapProps) {
  const t = useText();
  const lengths = useLengths();
  const keysId = useId();
  useEffect(() => followShimMap(longService()), []);
  const axle = useAxle();
  const [frameRef, size] = useBoxSize();
  const scales = useMemo(
    () => (size === null ? null : scalesOf(AXES, axle.pinionShim, plotBox(size, lengths.unit))),
    [axle, size, lengths],
  );
  const model = useMapModel(axle, useMapFrame(frameRef, size, scales?.box ?? null));
  const { drawn, fineStep, stock } = model;
  // the keys of the map before stay until there is a new one: they are much the same
  const [explained, setExplained] = useState(drawn);
  if (drawn !== null && drawn !== explained) setExplained(drawn);
  const cursor = useCursor(model, scales);

  return (
    <div className={styles.frameBox}>
      <div className={styles.map} data-covered={drawn?.fields.stride}>
        <div className={styles.chart}>
          <div
            ref={frameRef}
            className={styles.plot}
            role="application"
            aria-label={t('shimMap.label')}
            aria-roledescription={t('shimMap.role')}
            aria-describedby={keysId}
            // biome-ignore lint/a11y/noNoninteractiveTabindex: an application takes keys
            tabIndex={0}
            {...cursor.handlers}
          >
            {size !== null && scales !== null && (
              <div aria-hidden="true">
                {drawn !== null && <MapGround ground={drawn.ground} size={size} />}
                {fineStep === null && <StockDots combinations={stock} scales={scales} size={size} />}
                <svg
                  className={styles.drawing}
                  width={size.width}
                  height={size.height}
                  aria-hidden="true"
                  focusable="false"
                >
                  {drawn?.size === size && <MapNames labels={drawn.labels} />}
                  <MapAxes
                    axle={axle}
                    axes={AXES}
                    fields={drawn?.fields ?? null}
                    scales={scales}
                    em={size.em}
                    narrow={isNarrow(size)}
                  />
                </svg>
                {/* over the rest, so that what follows a slider is drawn without it */}
                <svg
                  className={styles.drawing}
                  width={size.width}
                  height={size.height}
                  aria-hidden="true"
                  focusable="false"
                >
                  <MapMarks model={model} scales={scales} cursor={cursor.at} />
                </svg>
              </div>
            )}
          </div>
          <p id={keysId} className={styles.keysHint}>
            {t('shimMap.keys')}
          </p>
          <div className={styles.foot}>
            <OffHomeScale title={t('shimMap.scale')} />
            <Working failureWords={failureWords} />
          </div>
        </div>
        <div className={`${styles.side} fades`}>
          <Readout model={model} cursor={cursor.at} byKey={cursor.byKey} onGo={cursor.go} />
          <Legend
            axle={axle}
            edges={explained?.edges ?? []}
            binds={explained?.binds ?? false}
            stock={fineStep === null}
          />
        </div>
      </div>
    </div>
  );
}
