import { useEffect, useState } from 'react';
import type { AxleDefinition } from '../../../../models/axle.ts';
import type { Fitment } from '../../../../sim/assembly/hardware.ts';
import { poseOfFitment } from '../../../../sim/worker/assembly.ts';
import type { PatchReport } from '../../../../sim/worker/protocol.ts';
import { Button } from '../../../app/ui/controls.tsx';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { type Combination, fitmentOf, pointOf } from '../../../shimMap/combinations.ts';
import { isOnPlane } from '../../../shimMap/plane.ts';
import styles from '../../../shimMap/ShimMap.module.css';
import { useMesh } from '../../../state/mesh.ts';
import { sameSetup, useSetup } from '../../../state/setup.ts';
import { useShownSetup } from '../../../state/shownSetup.ts';
import { useText } from '../../../text/useText.ts';
import { judgeBacklash } from '../backlash.ts';
import { type FlankState, type PlaceState, readingAt, stateAt } from './placeState.ts';
import { routeBetween } from './route.ts';
import type { MapModel } from './useMapModel.ts';
import { type PlaceWords, placeWords, routeWords, type Speech } from './words.ts';

const ROWS = ['pinion', 'sides', 'backlash', 'drive', 'coast', 'home'] as const;

export interface ReadoutProps {
  readonly model: MapModel;
  readonly cursor: Combination | null;
  readonly byKey: boolean;
  readonly onGo: () => void;
}

/** The place that is pointed at, or where the axle is, in words; the way there and what it costs. */
export function Readout({ model, cursor, byKey, onGo }: ReadoutProps) {
  const t = useText();
  const lengths = useLengths();
  const speech: Speech = { t, lengths };
  const fitment = useShownSetup(({ setup }) => setup.fitment);
  const { axle, axes, combinations, drawn, stock } = model;
  const target = cursor === null ? null : fitmentOf(combinations, cursor);
  const place = target ?? fitment;
  const point = cursor === null ? poseOfFitment(axle, fitment) : pointOf(combinations, cursor);
  const onMap = isOnPlane(axes, point);
  const mapped = drawn === null || !onMap ? null : stateAt(drawn.fields, axle.limits.backlash, point);
  const solved = usePresentState(axle);
  // where the axle is the flank maps and readings stand beside it: the same numbers
  const state: Partial<PlaceState> = { ...mapped, ...(target === null ? solved : null) };
  const words = placeWords(axle, place, state, speech);
  const legs = target === null ? [] : wayWords(model, fitment, target, speech);
  const best = drawn?.best ?? null;
  const bestFitment = best === null ? null : fitmentOf(stock, best.combination);
  const heading =
    target === null
      ? t('shimMap.here')
      : bestFitment !== null && sameFitment(bestFitment, target)
        ? t('shimMap.there.best')
        : t('shimMap.there');

  return (
    <section className={styles.readout} aria-label={heading}>
      <div className={styles.head}>
        <h3 className={styles.heading}>{heading}</h3>
        <div className={styles.goes}>
          <Button disabled={target === null || sameFitment(target, fitment)} onPress={onGo}>
            {t('shimMap.go')}
          </Button>
          <Button
            disabled={bestFitment === null || sameFitment(bestFitment, fitment)}
            onPress={() => {
              if (bestFitment !== null) useSetup.getState().apply({ fitment: bestFitment });
            }}
          >
            {t('shimMap.goBest')}
          </Button>
        </div>
      </div>
      <dl className={`${styles.rows} numbers`}>
        {ROWS.map((row) => (
          <div key={row} className={styles.row}>
            <dt>{t(`shimMap.row.${row}`)}</dt>
            <dd data-row={row} data-verdict={row === 'backlash' ? state.backlash?.verdict : undefined}>
              {words[row]}
            </dd>
          </div>
        ))}
      </dl>
      {!onMap && target === null && <p className={styles.soft}>{t('shimMap.outside')}</p>}
      <div className={styles.way}>
        <h4 className={styles.wayTitle}>{t('shimMap.route')}</h4>
        {legs.length > 0 ? (
          <ol className={styles.legs}>
            {legs.map((leg) => (
              <li key={leg}>{leg}</li>
            ))}
          </ol>
        ) : (
          <p className={styles.soft}>{t(target === null ? 'shimMap.route.none' : 'shimMap.route.already')}</p>
        )}
      </div>
      {drawn !== null && best === null && <p className={styles.soft}>{t('shimMap.best.none')}</p>}
      {best !== null && !best.clearOfEdges && <p className={styles.soft}>{t('shimMap.best.edges')}</p>}
      <Spoken text={byKey && target !== null ? spokenWords(heading, words, legs) : ''} />
    </section>
  );
}

/** Of the present place, as it is solved for the flank maps; how far off home only the map knows. */
function usePresentState(axle: AxleDefinition): Omit<PlaceState, 'offHome'> | null {
  const axleId = useShownSetup(({ setup }) => setup.axleId);
  const shown = useMesh((state) => state.shown);
  if (shown === null || shown.axleId !== axleId) return null;
  const { backlash, drive, coast } = shown.result;
  const flank = ({ toeHeel, rootFace, edges }: PatchReport): FlankState => ({
    toeHeel: toeHeel ?? Number.NaN,
    rootFace: rootFace ?? Number.NaN,
    edges,
  });
  return {
    backlash: judgeBacklash(backlash, axle.limits.backlash),
    drive: flank(drive),
    coast: flank(coast),
  };
}

function wayWords(model: MapModel, from: Fitment, to: Fitment, speech: Speech): readonly string[] {
  const { axle, drawn, axes } = model;
  const legs = routeWords(routeBetween(axle, from, to), speech);
  if (drawn === null || legs.length < 2) return legs;
  const corner = {
    pinionIn: poseOfFitment(axle, to).pinionIn,
    ringAway: poseOfFitment(axle, from).ringAway,
  };
  const bindsThere =
    isOnPlane(axes, corner) && readingAt(drawn.fields, axle.limits.backlash, corner).verdict === 'binds';
  return bindsThere ? [...legs, speech.t('shimMap.route.binds')] : legs;
}

function sameFitment(a: Fitment, b: Fitment): boolean {
  const { live } = useSetup.getState();
  return sameSetup({ ...live, fitment: a }, { ...live, fitment: b });
}

const spokenWords = (heading: string, words: PlaceWords, legs: readonly string[]): string =>
  [heading, ...ROWS.map((row) => words[row])].join('. ').concat('. ', legs.join(' '));

/** ms of rest: a held key must not be read out step by step. */
const REST = 350;

function Spoken({ text }: { readonly text: string }) {
  const [said, setSaid] = useState('');
  useEffect(() => {
    const timer = window.setTimeout(() => setSaid(text), REST);
    return () => window.clearTimeout(timer);
  }, [text]);
  return (
    <p className="visually-hidden" aria-live="polite" aria-atomic="true">
      {said}
    </p>
  );
}
