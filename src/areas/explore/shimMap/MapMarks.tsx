import type { AxleDefinition } from '../../../../models/axle.ts';
import { fittedAtDesign, fittedNow, poseOfFitment } from '../../../../sim/worker/assembly.ts';
import { type Combination, pointOf } from '../../../shimMap/combinations.ts';
import { isOnPlane, type PlanePoint } from '../../../shimMap/plane.ts';
import styles from '../../../shimMap/ShimMap.module.css';
import { NearDots } from '../../../shimMap/StockDots.tsx';
import type { PlotBox, Scales, ScreenPoint } from '../../../shimMap/scales.ts';
import { Sign } from '../../../shimMap/signs.tsx';
import { inBox, Way } from '../../../shimMap/Way.tsx';
import { useShownSetup } from '../../../state/shownSetup.ts';
import type { MapModel } from './useMapModel.ts';

export interface MapMarksProps {
  readonly model: MapModel;
  readonly scales: Scales;
  readonly cursor: Combination | null;
}

/** What stands on the map: places with a meaning, the pointer, and the way to it. Follows every step of a slider. */
export function MapMarks({ model, scales, cursor }: MapMarksProps) {
  const { axle, axes, combinations, stock, drawn, fineStep } = model;
  const present = usePresent(axle);
  const { box } = scales;
  const at = (point: PlanePoint): ScreenPoint => inBox(scales.toScreen(point), box);
  const target = cursor === null ? null : pointOf(combinations, cursor);
  const best = drawn?.best ?? null;
  const fixed = [
    ['design', poseOfFitment(axle, fittedAtDesign(axle))],
    ['found', poseOfFitment(axle, fittedNow(axle))],
  ] as const;
  return (
    <g>
      {cursor !== null && fineStep === null && (
        <NearDots combinations={combinations} scales={scales} near={cursor} />
      )}
      {best !== null && <Sign kind="best" at={at(pointOf(stock, best.combination))} />}
      {fixed.map(([kind, pose]) => isOnPlane(axes, pose) && <Sign key={kind} kind={kind} at={at(pose)} />)}
      {target !== null && (
        <>
          <CrossHair at={at(target)} box={box} />
          <Way from={at(present)} to={at(target)} />
        </>
      )}
      <Sign kind="present" at={at(present)} />
      {target !== null && <circle className={styles.cursor} cx={at(target).x} cy={at(target).y} r={8} />}
    </g>
  );
}

/** Where pinion and ring stand now. */
function usePresent(axle: AxleDefinition): PlanePoint {
  const fitment = useShownSetup(({ setup }) => setup.fitment);
  return poseOfFitment(axle, fitment);
}

function CrossHair({ at, box }: { readonly at: ScreenPoint; readonly box: PlotBox }) {
  const d = `M${box.left} ${at.y}H${box.left + box.width}M${at.x} ${box.top}V${box.top + box.height}`;
  return (
    <>
      <path className={styles.crossHalo} d={d} />
      <path className={styles.cross} d={d} />
    </>
  );
}
