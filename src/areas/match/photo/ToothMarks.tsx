import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import { useMapWidth } from '../../../flank/useMapWidth.ts';
import { useText } from '../../../text/useText.ts';
import styles from './photo.module.css';
import { movePoint, type Photo } from './photos.ts';
import { TOOTH_POINTS, type ToothPointName } from './straighten.ts';

/** The photo with the points to take hold of. */
export function ToothMarks({
  photo,
  onPhoto,
}: {
  readonly photo: Photo;
  readonly onPhoto: (photo: Photo) => void;
}) {
  const t = useText();
  const { picture, points } = photo;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [frame, width] = useMapWidth();
  const [held, setHeld] = useState<ToothPointName | null>(null);
  useEffect(() => {
    const shown = canvas.current;
    if (shown === null) return;
    shown.width = picture.width;
    shown.height = picture.height;
    shown.getContext('2d')?.drawImage(picture, 0, 0);
  }, [picture]);

  const move = (name: ToothPointName, x: number, y: number) =>
    onPhoto({
      picture,
      points: movePoint(points, name, {
        x: Math.min(picture.width, Math.max(0, x)),
        y: Math.min(picture.height, Math.max(0, y)),
      }),
    });
  const onMove = (event: PointerEvent<SVGCircleElement>) => {
    const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    if (held === null || box === undefined) return;
    move(
      held,
      ((event.clientX - box.left) / box.width) * picture.width,
      ((event.clientY - box.top) / box.height) * picture.height,
    );
  };
  const onKeyDown = (name: ToothPointName) => (event: KeyboardEvent) => {
    const step = (event.shiftKey ? 0.05 : 0.005) * picture.width;
    const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[
      event.key
    ];
    if (by === undefined) return;
    event.preventDefault();
    move(name, points[name].x + by[0], points[name].y + by[1]);
  };
  // handles keep their size on the screen whatever the photo's
  const unit = picture.width / width;
  const nearRight = (x: number) => x > 0.75 * picture.width;
  const { toeRoot, toeFace, heelFace, heelRoot, midFace, midRoot } = points;
  const outline = [
    `M${toeRoot.x} ${toeRoot.y}L${toeFace.x} ${toeFace.y}`,
    `Q${bow(toeFace, heelFace, midFace)} ${heelFace.x} ${heelFace.y}`,
    `L${heelRoot.x} ${heelRoot.y}Q${bow(heelRoot, toeRoot, midRoot)} ${toeRoot.x} ${toeRoot.y}`,
  ].join('');
  return (
    <div
      ref={frame}
      className={styles.photo}
      style={{ width: `min(100%, ${((58 * picture.width) / picture.height).toFixed(1)}dvh)` }}
    >
      <div aria-hidden="true">
        <canvas ref={canvas} />
      </div>
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing, not a form's group */}
      <svg
        viewBox={`0 0 ${picture.width} ${picture.height}`}
        role="group"
        aria-label={t('match.photo.marks')}
      >
        <path className={styles.toothHalo} d={outline} />
        <path className={styles.tooth} d={outline} />
        {TOOTH_POINTS.map((name) => {
          const { x, y } = points[name];
          return (
            <g key={name}>
              <circle className={styles.point} cx={x} cy={y} r={8 * unit} data-held={held === name} />
              <text
                className={styles.pointName}
                x={x + (nearRight(x) ? -12 : 12) * unit}
                y={y - 12 * unit}
                textAnchor={nearRight(x) ? 'end' : 'start'}
                fontSize={13.5 * unit}
              >
                {t(`match.photo.point.${name}`)}
              </text>
              {/* biome-ignore lint/a11y/useSemanticElements: a point in a drawing, moved by arrow keys */}
              <circle
                className={styles.grip}
                cx={x}
                cy={y}
                r={22 * unit}
                role="button"
                tabIndex={0}
                aria-label={t('match.photo.move', { point: t(`match.photo.point.${name}`) })}
                data-point={name}
                onKeyDown={onKeyDown(name)}
                onPointerDown={(event) => {
                  event.currentTarget.setPointerCapture(event.pointerId);
                  setHeld(name);
                }}
                onPointerMove={onMove}
                onPointerUp={() => setHeld(null)}
                onPointerCancel={() => setHeld(null)}
              />
            </g>
          );
        })}
      </svg>
    </div>
  );
}

/** Control point of a curve from a to b that passes the mid point. */
const bow = (
  a: { readonly x: number; readonly y: number },
  b: { readonly x: number; readonly y: number },
  mid: { readonly x: number; readonly y: number },
): string => `${2 * mid.x - (a.x + b.x) / 2} ${2 * mid.y - (a.y + b.y) / 2}`;
