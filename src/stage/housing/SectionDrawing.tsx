import { useId, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { Matrix4, Vector3 } from 'three';
import { useText } from '../../text/useText.ts';
import { type LabelAnchor, labelAnchors, PUSH_LABELS, riderMatrix } from './labelAnchors.ts';
import type { HousingLayout } from './layout.ts';
import type { PartName, Place, Rider } from './parts.ts';
import type { PartInfo, PushTexts } from './partWords.ts';
import { createSpot, placeLabel, type Spot } from './placeLabels.ts';
import styles from './SectionDrawing.module.css';
import { type SectionShape, sectionShapes } from './sectionShapes.ts';

export interface SectionDrawingProps {
  readonly layout: HousingLayout;
  readonly places: Readonly<Record<Rider, Place>>;
  /** a reverse-cut set is drawn the other way round */
  readonly mirrored: boolean;
  readonly parts: readonly PartInfo[];
  readonly pushes: PushTexts;
  readonly labels: boolean;
  readonly chosen: PartName | null;
  readonly onPoint: (part: PartName | null) => void;
  readonly onChoose: (part: PartName) => void;
}

/** CSS pixels left free at the sides, and above and below */
const MARGIN = 90;
const ROOM = 12;
/** CSS pixels of a label: width of a letter, height of a line */
const LETTER = 7.4;
const LINE = 20;

/** The axle cut open, flat: drawn where no three dimensions are to be had, from the same bodies. */
export function SectionDrawing(props: SectionDrawingProps) {
  const { layout, places, mirrored, parts, pushes, labels, chosen, onPoint, onChoose } = props;
  const t = useText();
  const hatchId = useId();
  const shapes = useMemo(() => sectionShapes(layout, places), [layout, places]);
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState(FIRST_SIZE);
  useLayoutEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const observer = new ResizeObserver(() =>
      setSize({ width: Math.max(element.clientWidth, 1), height: Math.max(element.clientHeight, 1) }),
    );
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  const scale = useMemo(() => scaleOf(layout, mirrored, size), [layout, mirrored, size]);
  const spots = useMemo(
    () => (labels ? placeAll(layout, places, scale, parts, pushes) : []),
    [labels, layout, places, scale, parts, pushes],
  );
  return (
    <div ref={frame} className={styles.frame}>
      <svg
        className={styles.drawing}
        viewBox={`0 0 ${size.width} ${size.height}`}
        role="img"
        aria-label={t('housing.flat')}
        onPointerLeave={() => onPoint(null)}
      >
        <defs>
          {[1, -1].map((lean) => (
            <pattern
              key={lean}
              id={`${hatchId}${lean}`}
              width="6"
              height="6"
              patternUnits="userSpaceOnUse"
              patternTransform={`rotate(${45 * lean})`}
            >
              <path d="M3 0V6" className={styles.hatch} />
            </pattern>
          ))}
        </defs>
        {shapes.map((shape, i) => (
          // biome-ignore lint/a11y/noStaticElementInteractions: the list of parts is the way in for keys
          <g
            // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no other name and never change places
            key={i}
            className={styles.shape}
            data-part={shape.part ?? ''}
            data-tone={shape.tone}
            data-chosen={shape.part !== null && shape.part === chosen}
            onPointerEnter={() => onPoint(shape.part)}
            onClick={() => shape.part !== null && onChoose(shape.part)}
          >
            <path d={outline(shape, scale)} />
            {shape.cut && (
              <path
                d={outline(shape, scale)}
                fill={`url(#${hatchId}${shape.tone === 'cast' ? 1 : -1})`}
                className={styles.hatched}
              />
            )}
          </g>
        ))}
        {spots.map(({ id, text, spot, push }) => (
          <g key={id} className={styles.label} data-push={push}>
            <path
              d={`M${spot.px.toFixed(1)} ${spot.py.toFixed(1)}L${spot.x.toFixed(1)} ${spot.y.toFixed(1)}`}
            />
            <circle cx={spot.px} cy={spot.py} r="2.5" />
            <rect
              x={spot.x - spot.halfWidth}
              y={spot.y - spot.halfHeight}
              width={2 * spot.halfWidth}
              height={2 * spot.halfHeight}
              rx="3"
            />
            <text x={spot.x} y={spot.y}>
              {text}
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const FIRST_SIZE: Size = { width: 800, height: 400 };

/** From mm of the section to CSS pixels of the drawing. */
interface Scale extends Size {
  readonly flip: 1 | -1;
  readonly perMm: number;
  /** mm at the middle of the drawing */
  readonly middleX: number;
  readonly middleZ: number;
}

const across = ({ flip, perMm, middleX, width }: Scale, x: number): number =>
  width / 2 + (flip * x - middleX) * perMm;
const down = ({ perMm, middleZ, height }: Scale, z: number): number => height / 2 + (middleZ - z) * perMm;

function scaleOf({ arrows, carrierSide }: HousingLayout, mirrored: boolean, size: Size): Scale {
  // as in three dimensions: the pinion to the left, to the right when mirrored
  const flip = mirrored ? 1 : -1;
  const along = (axis: 'pinion' | 'carrier') =>
    arrows.filter((arrow) => arrow.axis === axis).flatMap(({ from, to }) => [from, to]);
  const xs = [...along('pinion'), -carrierSide.bowlOuter].map((x) => flip * x);
  const zs = along('carrier');
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [bottom, top] = [Math.min(...zs), Math.max(...zs)];
  const margin = Math.min(MARGIN, 0.16 * size.width);
  const perMm = Math.max(
    0.05,
    Math.min((size.width - 2 * margin) / (right - left), (size.height - 2 * ROOM) / (top - bottom)),
  );
  return { ...size, flip, perMm, middleX: (left + right) / 2, middleZ: (top + bottom) / 2 };
}

const outline = ({ points }: SectionShape, scale: Scale): string =>
  `M${points.map(([x, z]) => `${across(scale, x).toFixed(1)} ${down(scale, z).toFixed(1)}`).join('L')}Z`;

interface PlacedLabel {
  readonly id: LabelAnchor['id'];
  readonly text: string;
  readonly push: boolean;
  readonly spot: Spot;
}

function placeAll(
  layout: HousingLayout,
  places: Readonly<Record<Rider, Place>>,
  scale: Scale,
  parts: readonly PartInfo[],
  pushes: PushTexts,
): readonly PlacedLabel[] {
  const texts = new Map<LabelAnchor['id'], string>();
  for (const { name, title, value } of parts) texts.set(name, value === null ? title : `${title} ${value}`);
  for (const id of PUSH_LABELS) texts.set(id, pushes[id.slice(5) as keyof PushTexts]);
  const placed: PlacedLabel[] = [];
  const matrix = new Matrix4();
  for (const anchor of labelAnchors(layout)) {
    const text = texts.get(anchor.id);
    if (text === undefined) continue;
    riderMatrix(matrix, anchor, places);
    const point = new Vector3().copy(anchor.point).applyMatrix4(matrix);
    const from = new Vector3().copy(anchor.from).applyMatrix4(matrix);
    const spot = createSpot();
    spot.px = across(scale, point.x);
    spot.py = down(scale, point.z);
    spot.halfWidth = (LETTER * text.length) / 2 + 6;
    spot.halfHeight = LINE / 2;
    const dx = spot.px - across(scale, from.x);
    const dy = spot.py - down(scale, from.z);
    const length = Math.hypot(dx, dy);
    const taken = placed.map((label) => label.spot);
    const free = placeLabel(
      spot,
      length < 1 ? 0 : dx / length,
      length < 1 ? -1 : dy / length,
      taken,
      taken.length,
      scale.width,
      scale.height,
    );
    if (free) placed.push({ id: anchor.id, text, push: anchor.id.startsWith('push '), spot });
  }
  return placed;
}
