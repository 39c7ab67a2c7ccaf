import { useId } from 'react';
import type { PlanePoint } from '../../../shimMap/plane.ts';
import map from '../../../shimMap/ShimMap.module.css';
import type { Scales } from '../../../shimMap/scales.ts';
import { Sign } from '../../../shimMap/signs.tsx';
import { type PlaneSpread, spreadOval } from '../../../shimMap/spreadOval.ts';
import { inBox, Way } from '../../../shimMap/Way.tsx';

export interface MatchMarksProps {
  readonly scales: Scales;
  readonly present: PlanePoint;
  /** null: nothing is to be changed */
  readonly advised: PlanePoint | null;
  /** how surely the present place is known */
  readonly spread: PlaneSpread;
}

/** What is fitted now and how surely it is known, what to fit, and the way there. */
export function MatchMarks({ scales, present, advised, spread }: MatchMarksProps) {
  const id = useId();
  const { box } = scales;
  const at = (point: PlanePoint) => inBox(scales.toScreen(point), box);
  const oval = `${spreadOval(present, spread)
    .map((point) => scales.toScreen(point))
    .map(({ x, y }, k) => `${k === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`)
    .join('')}Z`;
  return (
    <g>
      <clipPath id={id}>
        <rect x={box.left} y={box.top} width={box.width} height={box.height} />
      </clipPath>
      <g clipPath={`url(#${id})`}>
        <path className={map.spreadHalo} d={oval} />
        <path className={map.spread} d={oval} data-part="spread" />
      </g>
      {advised !== null && (
        <>
          <Way from={at(present)} to={at(advised)} />
          <Sign kind="best" at={at(advised)} />
        </>
      )}
      <Sign kind="present" at={at(present)} />
    </g>
  );
}

/** The oval beside its name. */
export function SpreadKey() {
  return (
    <svg className={map.signKey} viewBox="-19 -19 38 38" width={26} height={26} aria-hidden="true">
      <ellipse className={map.spread} rx={16} ry={9} transform="rotate(-30)" />
    </svg>
  );
}
