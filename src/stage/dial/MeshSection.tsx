import { useEffect, useId, useMemo, useRef } from 'react';
import type { GearSolids } from '../../../sim/gearset/solids.ts';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import type { Rock } from '../../state/rock.ts';
import { useText } from '../../text/useText.ts';
import type { Play } from './dialDriver.ts';
import styles from './MeshSection.module.css';
import { type CutFlank, cutMesh, type Outline } from './section.ts';

export interface MeshSectionProps {
  readonly solids: GearSolids;
  readonly solution: SolveResult;
  /** mm, offset of the gear set's definition */
  readonly offset: number;
  readonly mirrored: boolean;
  /** rad of ring angle at which the play is shown */
  readonly phase: number;
  readonly play: Play | null;
  readonly rock: Rock;
}

/** Half width of what a lens shows, mm: the smallest that holds the play. */
const LENS_SPANS = [0.12, 0.2, 0.32, 0.5, 0.8] as const;
const WIDTH = 240;
const HEIGHT = 152;
const LENS = 37;
const MIDDLE = { x: WIDTH / 2, y: HEIGHT * 0.36 };

/**
 * The play as it is: a pinion tooth in its slot of the ring, cut from the drawn bodies, and a lens where either flank
 * touches, drawn from the solved play itself.
 */
export function MeshSection({ solids, solution, offset, mirrored, phase, play, rock }: MeshSectionProps) {
  const t = useText();
  const id = useId();
  const ring = useRef<SVGGElement>(null);
  const driveGap = useRef<SVGRectElement>(null);
  const coastGap = useRef<SVGRectElement>(null);
  const cut = useMemo(
    () =>
      cutMesh(
        solids,
        offset,
        mirrored,
        solution.pose,
        { driveError: solution.drive.transmissionErrorCurve, freePlay: solution.freePlayCurve },
        phase,
      ),
    [solids, solution, offset, mirrored, phase],
  );
  const paths = useMemo(() => ({ ring: path(cut.ring, -1), pinion: path(cut.pinion, 1) }), [cut]);
  const angle = play?.angle ?? 0;
  const gapOf = ({ normal }: CutFlank) =>
    angle * Math.abs(cut.perRad[0] * normal[0] + cut.perRad[1] * normal[1]);
  const gaps = { drive: gapOf(cut.drive), coast: gapOf(cut.coast) };
  const span = LENS_SPANS.find((half) => half > 1.1 * Math.max(gaps.drive, gaps.coast)) ?? 0.8;
  const slot = Math.hypot(cut.coast.x - cut.drive.x, cut.coast.y - cut.drive.y);
  const scale = WIDTH / (3 * slot);
  const magnified = LENS / span;

  useEffect(() => {
    const show = () => {
      const turned = rock.share * angle;
      ring.current?.setAttribute(
        'transform',
        `translate(${cut.perRad[0] * turned} ${cut.perRad[1] * turned})`,
      );
      driveGap.current?.setAttribute('x', String(-2 * LENS - rock.share * gaps.drive * magnified));
      coastGap.current?.setAttribute('x', String(-2 * LENS - (1 - rock.share) * gaps.coast * magnified));
    };
    show();
    return rock.subscribe(show);
  }, [rock, cut, angle, gaps.drive, gaps.coast, magnified]);

  const lenses = (['drive', 'coast'] as const).map((flank) => {
    const { x, y, normal } = cut[flank];
    const side = x < 0 ? -1 : 1;
    return {
      flank,
      gap: flank === 'drive' ? driveGap : coastGap,
      fromX: MIDDLE.x + x * scale,
      fromY: MIDDLE.y - y * scale,
      cx: MIDDLE.x + side * (WIDTH / 2 - LENS - 3),
      cy: HEIGHT - LENS - 3,
      turn: (Math.atan2(-normal[1], normal[0]) * 180) / Math.PI,
    };
  });
  const times = Math.round(magnified / scale);
  return (
    <svg
      className={styles.section}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={t('dial.section.label', { times })}
    >
      <title>{t('dial.section.label', { times })}</title>
      <defs>
        {lenses.map(({ flank, cx, cy }) => (
          <clipPath key={flank} id={`${id}${flank}`}>
            <circle cx={cx} cy={cy} r={LENS} />
          </clipPath>
        ))}
      </defs>
      <g transform={`translate(${MIDDLE.x} ${MIDDLE.y}) scale(${scale} ${-scale})`}>
        <path className={styles.pinion} d={paths.pinion} />
        <g ref={ring}>
          <path className={styles.ring} d={paths.ring} />
        </g>
      </g>
      {lenses.map(({ flank, gap, fromX, fromY, cx, cy, turn }) => (
        <g key={flank} data-lens={flank}>
          <path className={styles.leader} d={`M${fromX} ${fromY}L${cx} ${cy}`} />
          <circle className={styles.leaderEnd} cx={fromX} cy={fromY} r={2.5} />
          <circle className={styles.glass} cx={cx} cy={cy} r={LENS} />
          <g clipPath={`url(#${id}${flank})`}>
            <g transform={`translate(${cx} ${cy}) rotate(${turn})`}>
              <rect className={styles.pinion} x={0} y={-2 * LENS} width={2 * LENS} height={4 * LENS} />
              <rect ref={gap} className={styles.ring} y={-2 * LENS} width={2 * LENS} height={4 * LENS} />
            </g>
          </g>
          <circle className={styles.rim} cx={cx} cy={cy} r={LENS} />
          <text className={styles.label} x={cx} y={cy - LENS - 5}>
            {t(`dial.section.${flank}`)}
          </text>
        </g>
      ))}
      <text className={styles.label} x={MIDDLE.x} y={HEIGHT - 6}>
        {t('dial.section.times', { times })}
      </text>
    </svg>
  );
}

/** Outlines as one filled path, each closed far below (`side` −1) or above. */
const path = (outlines: readonly Outline[], side: 1 | -1): string =>
  outlines
    .map((outline) => {
      let d = '';
      for (let i = 0; i < outline.length; i += 2) {
        d += `${i === 0 ? 'M' : 'L'}${outline[i].toFixed(4)} ${outline[i + 1].toFixed(4)}`;
      }
      const [x0, x1] = [outline[0], outline[outline.length - 2]];
      return `${d}L${x1.toFixed(4)} ${side * 60}L${x0.toFixed(4)} ${side * 60}Z`;
    })
    .join('');
