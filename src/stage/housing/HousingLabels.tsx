import { memo, type Ref, type RefObject, useEffect, useImperativeHandle, useMemo, useRef } from 'react';
import { Matrix4, type PerspectiveCamera, Vector3 } from 'three';
import styles from './HousingLabels.module.css';
import { isHidden } from './hidden.ts';
import type { HousingDriver } from './housingDriver.ts';
import { anchorMatrix, type LabelAnchor, labelAnchors, PUSH_LABELS } from './labelAnchors.ts';
import type { HousingLayout } from './layout.ts';
import { PART_NAMES, type PartName } from './parts.ts';
import type { PartInfo, PushTexts } from './partWords.ts';
import { createSpot, placeLabel, type Spot } from './placeLabels.ts';

export interface HousingLabelsHandle {
  /** Moves the labels to where the camera now sees their parts; sizes in CSS pixels. */
  place(camera: PerspectiveCamera, width: number, height: number): void;
}

export interface HousingLabelsProps {
  readonly driver: HousingDriver;
  readonly layout: HousingLayout | null;
  readonly parts: readonly PartInfo[];
  readonly pushes: PushTexts | null;
  /** whether all are shown; the chosen part's always is */
  readonly shown: boolean;
  readonly chosen: PartName | null;
  /** stands in the lower left corner of the picture: no label goes there */
  readonly legend: RefObject<HTMLElement | null>;
  readonly ref: Ref<HousingLabelsHandle>;
}

const IDS = [...PART_NAMES, ...PUSH_LABELS] as const;
/** CSS pixels between the legend and the border */
const LEGEND_INSET = 6;

type LabelId = (typeof IDS)[number];

/** Labels in HTML over the picture, moved by hand each frame and never by React; what finds no room is left out. */
export const HousingLabels = memo(function HousingLabels({
  driver,
  layout,
  parts,
  pushes,
  shown,
  chosen,
  legend,
  ref,
}: HousingLabelsProps) {
  const layer = useRef<HTMLDivElement>(null);
  const anchors = useMemo(() => (layout === null ? [] : labelAnchors(layout)), [layout]);
  const elements = useRef(new Map<LabelId, HTMLElement>());
  const sizes = useRef(new Map<Element, { halfWidth: number; halfHeight: number }>());

  // sizes change with text, theme and the font's arrival: reading them in a frame would force a layout
  // biome-ignore lint/correctness/useExhaustiveDependencies: another axle has other parts, hence other elements
  useEffect(() => {
    const observer = new ResizeObserver((entries) => {
      for (const { target } of entries) {
        const { offsetWidth, offsetHeight } = target as HTMLElement;
        sizes.current.set(target, { halfWidth: offsetWidth / 2, halfHeight: offsetHeight / 2 });
      }
      driver.wake();
    });
    for (const element of elements.current.values()) {
      const text = element.lastElementChild;
      if (text !== null) observer.observe(text);
    }
    if (legend.current !== null) observer.observe(legend.current);
    return () => observer.disconnect();
  }, [driver, layout, legend]);

  useImperativeHandle(ref, () => {
    const matrix = new Matrix4();
    const point = new Vector3();
    const from = new Vector3();
    const place = new Vector3();
    const eye = new Vector3();
    // one more than there are labels: the legend's
    const taken: Spot[] = [createSpot(), ...IDS.map(createSpot)];

    /** The legend takes its place first; 1 when there is one. */
    const keepLegend = (spot: Spot, height: number): 0 | 1 => {
      const element = legend.current;
      const size = element === null ? undefined : sizes.current.get(element);
      if (element === null || size === undefined) return 0;
      spot.halfWidth = size.halfWidth + LEGEND_INSET / 2;
      spot.halfHeight = size.halfHeight + LEGEND_INSET / 2;
      spot.x = spot.halfWidth;
      spot.y = height - spot.halfHeight;
      spot.px = spot.x;
      spot.py = spot.y;
      return 1;
    };

    /** Places one label after `used` others; false when it has no room. */
    const tryAnchor = (
      anchor: LabelAnchor,
      used: number,
      camera: PerspectiveCamera,
      width: number,
      height: number,
    ): boolean => {
      const element = elements.current.get(anchor.id);
      const text = element?.lastElementChild as HTMLElement | null | undefined;
      const size = text ? sizes.current.get(text) : undefined;
      if (!element || !text || size === undefined || size.halfWidth === 0) return false;
      anchorMatrix(matrix, driver.scene, anchor);
      point.copy(anchor.point).applyMatrix4(matrix);
      if (layout !== null && anchor.id !== chosen) {
        place.copy(point);
        eye.copy(camera.position);
        if (driver.scene.mirrored) {
          place.y *= -1;
          eye.y *= -1;
        }
        if (isHidden(layout, anchor.part, place, eye)) return false;
      }
      point.project(camera);
      from.copy(anchor.from).applyMatrix4(matrix).project(camera);
      if (Math.abs(point.z) > 1) return false;
      const spot = taken[used];
      spot.px = (point.x * 0.5 + 0.5) * width;
      spot.py = (0.5 - point.y * 0.5) * height;
      if (spot.px < 0 || spot.px > width || spot.py < 0 || spot.py > height) return false;
      spot.halfWidth = size.halfWidth;
      spot.halfHeight = size.halfHeight;
      let dx = (point.x - from.x) * width;
      let dy = (from.y - point.y) * height;
      const length = Math.hypot(dx, dy);
      if (length < 1) {
        dx = 0;
        dy = -1;
      } else {
        dx /= length;
        dy /= length;
      }
      if (!placeLabel(spot, dx, dy, taken, used, width, height)) return false;
      element.style.visibility = 'visible';
      element.style.transform = `translate(${spot.px.toFixed(1)}px, ${spot.py.toFixed(1)}px)`;
      const line = element.firstElementChild as HTMLElement;
      const bx = spot.x - spot.px;
      const by = spot.y - spot.py;
      const reach = Math.hypot(bx, by);
      // the leader ends at the border of its box
      const cover = Math.min(
        (spot.halfWidth * reach) / Math.max(Math.abs(bx), 1e-3),
        (spot.halfHeight * reach) / Math.max(Math.abs(by), 1e-3),
      );
      line.style.transform = `rotate(${Math.atan2(by, bx).toFixed(3)}rad) scaleX(${Math.max(reach - cover, 1).toFixed(1)})`;
      text.style.transform = `translate(${(bx - spot.halfWidth).toFixed(1)}px, ${(by - spot.halfHeight).toFixed(1)}px)`;
      return true;
    };

    return {
      place: (camera, width, height) => {
        for (const element of elements.current.values()) element.style.visibility = 'hidden';
        if (driver.travelling || driver.scene.layout === null) return;
        let used = keepLegend(taken[0], height);
        for (const anchor of anchors) {
          if (anchor.part !== chosen || anchor.id !== chosen) continue;
          if (tryAnchor(anchor, used, camera, width, height)) used += 1;
        }
        if (!shown) return;
        for (const anchor of anchors) {
          if (anchor.id === chosen) continue;
          if (tryAnchor(anchor, used, camera, width, height)) used += 1;
        }
      },
    };
  }, [driver, layout, anchors, shown, chosen, legend]);

  const keep = (id: LabelId) => (element: HTMLElement | null) => {
    if (element === null) elements.current.delete(id);
    else elements.current.set(id, element);
  };
  return (
    <div ref={layer} className={styles.layer} aria-hidden="true">
      {parts.map(({ name, title, value, drawn }) => (
        <div
          key={name}
          ref={keep(name)}
          className={styles.label}
          data-label={name}
          data-chosen={name === chosen}
        >
          <i className={styles.leader} />
          <span className={styles.text}>
            {title}
            {value !== null && <b> {value}</b>}
            {drawn !== null && <small> {drawn}</small>}
          </span>
        </div>
      ))}
      {pushes !== null &&
        PUSH_LABELS.map((id) => (
          <div key={id} ref={keep(id)} className={styles.label} data-label={id} data-push="true">
            <i className={styles.leader} />
            <span className={styles.text}>{pushes[id.slice(5) as keyof PushTexts]}</span>
          </div>
        ))}
    </div>
  );
});
