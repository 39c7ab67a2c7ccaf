import { memo, type ReactNode } from 'react';
import type { PatchMove } from '../../sim/worker/longProtocol.ts';
import type { AdjustmentName } from '../state/adjustments.ts';
import { useText } from '../text/useText.ts';
import type { MapFrame } from './FlankMap.tsx';
import styles from './layers.module.css';
import { type MarkMoves, placeArrows } from './moveArrows.ts';

export interface ArrowLayerProps {
  readonly frame: MapFrame;
  /** middle of the mark */
  readonly centre: Pick<MarkMoves, 'toeHeel' | 'rootFace'>;
  readonly moves: readonly { readonly name: AdjustmentName; readonly move: PatchMove }[];
  /** so many times as long as the move */
  readonly times: number;
}

/** px: length and half width of a head */
const HEAD = 9;
const HALF = 4.5;
const SIGN_RADIUS = 7.5;

/** Where one step of each adjustment takes the mark. */
export const ArrowLayer = memo(function ArrowLayer({
  frame,
  centre,
  moves,
  times,
}: ArrowLayerProps): ReactNode {
  const arrows = placeArrows(centre, moves, times, frame.place);
  return (
    <g data-layer="moves">
      <path className={styles.halo} d={arrows.map(({ from, to }) => arrowPaths(from, to).whole).join('')} />
      {arrows.map(({ name, from, to }) => {
        const { shaft, head } = arrowPaths(from, to);
        return (
          <g key={name} data-move={name} data-from={from.join(' ')} data-to={to.join(' ')}>
            <path className={styles.shaft} data-move={name} d={shaft} />
            <path className={styles.tip} d={head} />
          </g>
        );
      })}
      {arrows.map(({ name, sign: [x, y] }) => (
        <ArrowSign key={name} name={name} x={x} y={y} />
      ))}
    </g>
  );
});

function arrowPaths(
  from: readonly [number, number],
  to: readonly [number, number],
): { readonly shaft: string; readonly head: string; readonly whole: string } {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  if (length < 1e-6) return { shaft: '', head: '', whole: '' };
  const [ex, ey] = [dx / length, dy / length];
  const head = Math.min(HEAD, length);
  const [bx, by] = [to[0] - head * ex, to[1] - head * ey];
  const half = (HALF * head) / HEAD;
  const shaft = `M${px(from[0])} ${px(from[1])}L${px(bx)} ${px(by)}`;
  const tip = `M${px(to[0])} ${px(to[1])}L${px(bx - half * ey)} ${px(by + half * ex)}L${px(bx + half * ey)} ${px(by - half * ex)}Z`;
  return { shaft, head: tip, whole: shaft + tip };
}

const px = (value: number): number => Math.round(value * 100) / 100;

/** Its letter on a disc; the same in the key. */
function ArrowSign({
  name,
  x,
  y,
}: {
  readonly name: AdjustmentName;
  readonly x: number;
  readonly y: number;
}): ReactNode {
  const t = useText();
  return (
    <>
      <circle className={styles.disc} cx={x} cy={y} r={SIGN_RADIUS} />
      <text className={styles.letter} x={x} y={y}>
        {t(`moves.sign.${name}`)}
      </text>
    </>
  );
}

/** An arrow as it is drawn on the maps, for the key. */
export function ArrowSample({ name }: { readonly name: AdjustmentName }): ReactNode {
  const { shaft, head } = arrowPaths([1, 8.5], [26, 8.5]);
  return (
    <svg
      className={styles.sample}
      viewBox="0 0 45 17"
      width="45"
      height="17"
      aria-hidden="true"
      focusable="false"
    >
      <path className={styles.shaft} data-move={name} d={shaft} />
      <path className={styles.tip} d={head} />
      <ArrowSign name={name} x={36} y={8.5} />
    </svg>
  );
}
