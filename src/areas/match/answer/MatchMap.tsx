import { useEffect, useMemo } from 'react';
import { fittedNow, poseOfFitment } from '../../../../sim/worker/assembly.ts';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { combinationsOf } from '../../../shimMap/combinations.ts';
import { isNarrow, plotBox } from '../../../shimMap/layout.ts';
import { MapAxes } from '../../../shimMap/MapAxes.tsx';
import { MapGround } from '../../../shimMap/MapGround.tsx';
import { MapNames } from '../../../shimMap/MapNames.tsx';
import { OffHomeScale } from '../../../shimMap/OffHomeScale.tsx';
import map from '../../../shimMap/ShimMap.module.css';
import { StockDots } from '../../../shimMap/StockDots.tsx';
import { scalesOf } from '../../../shimMap/scales.ts';
import { SignKey } from '../../../shimMap/signs.tsx';
import { useBoxSize } from '../../../shimMap/useBoxSize.ts';
import { useMapFrame } from '../../../shimMap/useMapFrame.ts';
import { useMapPicture } from '../../../shimMap/useMapPicture.ts';
import { axleOf } from '../../../state/axles.ts';
import { longService } from '../../../state/longService.ts';
import { type Answered, matchPlane, useMatchMap, workOutMatchMap } from '../../../state/matchMap.ts';
import { preloadToHold } from '../../../state/positions.ts';
import { shimMap } from '../../../text/en/shimMap.ts';
import { addTexts } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import { shimsWords } from '../shimsWords.ts';
import styles from './answer.module.css';
import { failureReason } from './failureReason.ts';
import { MatchMarks, SpreadKey } from './MatchMarks.tsx';

addTexts(shimMap);

/** ms of rest before a map is begun: the next stroke brings another answer. */
const REST_MS = 300;

const NOTHING_YET = { shown: null, failure: null } as const;

const NO_TROUBLE = {
  attempt: 0,
  onFailure: (failure: NonNullable<ReturnType<typeof useMatchMap.getState>['failure']>) =>
    useMatchMap.setState({ failure }),
};

/** Every combination of shims for the set as the look explains it: where it is, how surely, and the way to the advised one. */
export function MatchMap({ answered }: { readonly answered: Answered }) {
  const t = useText();
  const lengths = useLengths();
  useMapOf(answered);
  const { look, answer } = answered;
  const { advice, nearest, diagnosis } = answer;
  const { axle } = axleOf(look.axleId);
  const advised = advice.kind === 'refused' ? null : (advice.change?.fitment ?? null);
  const plane = useMemo(
    () => matchPlane(look.axleId, look.fitment, advised),
    [look.axleId, look.fitment, advised],
  );
  const worked = useMatchMap();
  // what belongs to another answer says nothing about this one
  const { shown, failure } = worked.of === answered ? worked : NOTHING_YET;
  const [plotRef, size] = useBoxSize();
  const scales = useMemo(
    () => (size === null ? null : scalesOf(plane, axle.pinionShim, plotBox(size, lengths.unit))),
    [plane, axle, size, lengths],
  );
  const frame = useMapFrame(plotRef, size, scales?.box ?? null);
  const { normal, tangential } = nearest.backlash;
  const turning = normal !== null && tangential !== null && normal !== 0 ? tangential / normal : null;
  const picture = useMapPicture(shown, axle, turning, frame, NO_TROUBLE);
  const spread = {
    pinionIn: diagnosis.pose.pinionIn.sd,
    ringAway: diagnosis.pose.ringAway.sd,
    correlation: diagnosis.correlations[0][1],
  };
  const stock = useMemo(() => {
    const preload = preloadToHold(axle, fittedNow(axle), look.fitment);
    return combinationsOf(axle, preload, plane, null);
  }, [axle, look.fitment, plane]);
  const present = poseOfFitment(axle, look.fitment);
  const label = t('match.answer.map.label', {
    now: shimsWords(look.fitment, axle, lengths, t),
    change: advised === null ? 'no' : 'yes',
    next: advised === null ? '' : shimsWords(advised, axle, lengths, t),
  });
  return (
    <figure className={styles.map} data-part="shim-map" data-covered={picture?.fields.stride}>
      <figcaption className={styles.mapTitle}>{t('match.answer.map')}</figcaption>
      <div className={`${map.paper} ${styles.mapPaper}`}>
        <div ref={plotRef} className={styles.mapPlot} role="img" aria-label={label}>
          {size !== null && scales !== null && (
            <>
              {picture !== null && <MapGround ground={picture.ground} size={size} />}
              <StockDots combinations={stock} scales={scales} size={size} />
              <svg className={map.drawing} width={size.width} height={size.height} aria-hidden="true">
                {picture !== null && picture.size === size && <MapNames labels={picture.labels} />}
                <MapAxes
                  axle={axle}
                  axes={plane}
                  fields={picture?.fields ?? null}
                  scales={scales}
                  em={size.em}
                  narrow={isNarrow(size)}
                />
                <MatchMarks
                  scales={scales}
                  present={present}
                  advised={advised === null ? null : poseOfFitment(axle, advised)}
                  spread={spread}
                />
              </svg>
            </>
          )}
        </div>
        {failure !== null && (
          <p className={styles.mapNote} role="alert">
            {t('match.answer.map.failed', { reason: failureReason(failure) })}
          </p>
        )}
        {failure === null && picture === null && (
          <p className={styles.mapNote}>{t('match.answer.map.working')}</p>
        )}
        <OffHomeScale title={t('match.answer.map.scale')} />
        <ul className={styles.mapKeys}>
          <li>
            <SignKey kind="present" />
            {t('match.answer.map.now')}
          </li>
          {advised !== null && (
            <li>
              <SignKey kind="best" />
              {t('match.answer.map.next')}
            </li>
          )}
          <li>
            <SignKey kind="stock" />
            {t('shimMap.mark.stock')}
          </li>
          <li>
            <SpreadKey />
            {t('match.answer.map.spread')}
          </li>
        </ul>
        <p className={styles.mapNote}>
          {t(diagnosis.regime === 'known' ? 'match.answer.map.why' : 'match.answer.map.why.unknown')}
        </p>
      </div>
    </figure>
  );
}

/** Keeps the map at this answer. */
function useMapOf(answered: Answered): void {
  useEffect(() => {
    const abort = new AbortController();
    const timer = setTimeout(() => void workOutMatchMap(longService(), answered, abort.signal), REST_MS);
    return () => {
      clearTimeout(timer);
      abort.abort();
    };
  }, [answered]);
}
