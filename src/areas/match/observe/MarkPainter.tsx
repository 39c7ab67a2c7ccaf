import { type KeyboardEvent, type ReactNode, useCallback, useId, useMemo, useRef, useState } from 'react';
import type { Hand } from '../../../../sim/assembly/hardware.ts';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { FlankOutline } from '../../../../sim/worker/protocol.ts';
import { compoundTones } from '../../../flank/compoundTones.ts';
import { FlankMap, type MapFrame } from '../../../flank/FlankMap.tsx';
import { projectFlank } from '../../../flank/flankGeometry.ts';
import {
  blankMark,
  type FlankPoint,
  fillOutline,
  isBlank,
  type MarkShape,
  ovalMark,
  type PaintedMark,
  shapeOf,
  stroke,
} from '../../../state/paintedMark.ts';
import { useText } from '../../../text/useText.ts';
import { markWords } from './markWords.ts';
import { OvalHandles } from './OvalHandles.tsx';
import { PaintLayer } from './PaintLayer.tsx';
import styles from './paint.module.css';
import { type BrushSize, brushOn, type Tool } from './tools.ts';

export interface MarkPainterProps {
  readonly flank: FlankName;
  readonly outline: FlankOutline;
  readonly hand: Hand;
  readonly compoundColour: string;
  readonly mark: PaintedMark | null;
  readonly tool: Tool;
  readonly size: BrushSize;
  /** a step of a stroke */
  readonly onPreview: (mark: PaintedMark) => void;
  /** the brush is lifted */
  readonly onCommit: () => void;
  /** asks for a photo to lie under the paint */
  readonly onPhoto: () => void;
  /** under the paint, in px of the drawing (a photo) */
  readonly underlay?: ((frame: MapFrame) => ReactNode) | undefined;
  /** over the paint (what the solver answers) */
  readonly overlay?: ((frame: MapFrame) => ReactNode) | undefined;
}

/** One flank of the ring tooth to paint on: by finger, pen, mouse or keys. */
export function MarkPainter(props: MarkPainterProps) {
  const { flank, outline, hand, compoundColour, mark, tool, size, onPreview, onCommit } = props;
  const t = useText();
  const keysId = useId();
  const projection = useMemo(() => projectFlank(outline, flank, hand), [outline, flank, hand]);
  const brush = useMemo(() => brushOn(projection, size), [projection, size]);
  const tones = useMemo(() => compoundTones(compoundColour), [compoundColour]);
  const [lasso, setLasso] = useState<readonly FlankPoint[]>([]);
  const [cursor, setCursor] = useState<FlankPoint | null>(null);
  const last = useRef<FlankPoint>([0, 0]);

  const painted = useMemo(() => mark ?? blankMark(), [mark]);
  // strokes may come faster than React draws: each goes on from the one before it
  const newest = useRef(painted);
  newest.current = painted;
  const show = useCallback(
    (next: PaintedMark) => {
      newest.current = next;
      onPreview(next);
    },
    [onPreview],
  );
  const dab = (from: FlankPoint, to: FlankPoint, wipe: boolean) =>
    show(stroke(newest.current, from, to, brush, wipe ? 0 : 1));
  const shape = useMemo(() => shapeOf(painted), [painted]);
  const [held, setHeld] = useState<MarkShape | null>(null);
  const oval = held ?? shape;

  const onDown = (at: FlankPoint) => {
    last.current = at;
    setCursor(null);
    if (tool === 'outline') setLasso([at]);
    else if (tool === 'oval') takeOval({ ...(oval ?? FIRST_OVAL), toeHeel: at[0], rootFace: at[1] });
    else dab(at, at, tool === 'wipe');
  };
  const onMove = (at: FlankPoint) => {
    if (tool === 'outline') setLasso((before) => [...before, at]);
    else if (tool === 'oval') takeOval({ ...(oval ?? FIRST_OVAL), toeHeel: at[0], rootFace: at[1] });
    else dab(last.current, at, tool === 'wipe');
    last.current = at;
  };
  const onUp = () => {
    if (tool === 'outline') closeLasso();
    setHeld(null);
    onCommit();
  };
  const takeOval = (next: MarkShape) => {
    setHeld(next);
    show(ovalMark(next));
  };
  const closeLasso = () => {
    if (lasso.length > 2) show(fillOutline(newest.current, lasso, 1));
    setLasso([]);
  };

  const onKeyDown = (event: KeyboardEvent) => {
    const [u, v] = cursor ?? [shape?.toeHeel ?? 0, shape?.rootFace ?? 0];
    const far = event.shiftKey ? 4 : 1;
    const right = projection.heelOnRight ? 1 : -1;
    const moves: Readonly<Record<string, FlankPoint>> = {
      ArrowLeft: [-right * 0.025 * far, 0],
      ArrowRight: [right * 0.025 * far, 0],
      ArrowUp: [0, 0.05 * far],
      ArrowDown: [0, -0.05 * far],
    };
    const move = moves[event.key];
    if (move !== undefined) {
      const to: FlankPoint = [clampUnit(u + move[0]), clampUnit(v + move[1])];
      setCursor(to);
      if (tool === 'oval' && oval !== null) {
        takeOval({ ...oval, toeHeel: to[0], rootFace: to[1] });
        setHeld(null);
        onCommit();
      }
    } else if (event.key === ' ') {
      setCursor([u, v]);
      if (tool === 'outline') setLasso((before) => [...before, [u, v]]);
      else if (tool === 'oval') {
        takeOval({ ...(oval ?? FIRST_OVAL), toeHeel: u, rootFace: v });
        setHeld(null);
        onCommit();
      } else {
        dab([u, v], [u, v], tool === 'wipe');
        onCommit();
      }
    } else if (event.key === 'Delete' || event.key === 'Backspace') {
      setCursor([u, v]);
      dab([u, v], [u, v], true);
      onCommit();
    } else if (event.key === 'Enter' && lasso.length > 0) {
      closeLasso();
      onCommit();
    } else if (event.key === 'Escape' && (lasso.length > 0 || cursor !== null)) {
      setLasso([]);
      setCursor(null);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };

  const layers = (frame: MapFrame) => (
    <>
      {props.underlay?.(frame)}
      <PaintLayer
        frame={frame}
        mark={painted}
        tones={tones}
        seeThrough={props.underlay !== undefined}
        onDown={onDown}
        onMove={onMove}
        onUp={onUp}
      />
      {props.overlay?.(frame)}
      {tool === 'oval' && oval !== null && !isBlank(painted) && (
        <OvalHandles
          frame={frame}
          shape={oval}
          onShape={takeOval}
          onDone={() => {
            setHeld(null);
            onCommit();
          }}
        />
      )}
      {lasso.length > 0 && (
        <path
          className={styles.lasso}
          d={`M${lasso.map(([u, v]) => frame.place(u, v).join(' ')).join('L')}`}
        />
      )}
      {cursor !== null && <Crosshair frame={frame} at={cursor} brush={brush} />}
    </>
  );

  return (
    <div
      className={styles.painter}
      role="application"
      aria-label={t('match.paint.surface', { flank: t(`flank.name.${flank}`) })}
      aria-describedby={keysId}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it is painted on by keys
      tabIndex={0}
      onKeyDown={onKeyDown}
      onBlur={() => setCursor(null)}
      data-painter={flank}
    >
      <FlankMap
        flank={flank}
        outline={outline}
        hand={hand}
        result={null}
        compoundColour={compoundColour}
        numbers={
          <span className={styles.headRight}>
            <span className={styles.numbers}>{markWords(shape, t)}</span>
            <button
              type="button"
              className={styles.photoButton}
              aria-label={t('match.photo.openFor', { flank: t(`flank.name.${flank}`) })}
              onClick={props.onPhoto}
              onKeyDown={(event) => event.stopPropagation()}
            >
              {t('match.photo.open')}
            </button>
          </span>
        }
      >
        {layers}
      </FlankMap>
      <p id={keysId} className="visually-hidden">
        {t('match.paint.keys')}
      </p>
      <p className="visually-hidden" role="status">
        {cursor === null
          ? ''
          : t('match.paint.cursor', {
              along: Math.round(cursor[0] * 100),
              up: Math.round(cursor[1] * 100),
            })}
      </p>
    </div>
  );
}

const FIRST_OVAL: MarkShape = { toeHeel: 0, rootFace: 0, length: 0.5, height: 0.6, tilt: 0 };

const clampUnit = (value: number): number => Math.min(1, Math.max(-1, value));

function Crosshair({
  frame,
  at: [u, v],
  brush,
}: {
  readonly frame: MapFrame;
  readonly at: FlankPoint;
  readonly brush: { readonly along: number };
}) {
  const [x, y] = frame.place(u, v);
  const radius = brush.along * frame.projection.halfWidth * frame.layout.scale;
  return (
    <g>
      <circle className={styles.cursorHalo} cx={x} cy={y} r={radius} />
      <circle className={styles.cursor} cx={x} cy={y} r={radius} />
      <path className={styles.cursor} d={`M${x - 5} ${y}h10M${x} ${y - 5}v10`} />
    </g>
  );
}
