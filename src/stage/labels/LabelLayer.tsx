import { memo, type Ref, useEffect, useImperativeHandle, useRef } from 'react';
import { Matrix4, type PerspectiveCamera, Vector3 } from 'three';
import type { TextKey } from '../../text/catalogue.ts';
import { useText } from '../../text/useText.ts';
import { squareFlank } from '../camera/homes.ts';
import type { StageDriver } from '../driver.ts';
import { type Anchor, anchorsOf, LABELS, type LabelName } from './anchors.ts';
import styles from './LabelLayer.module.css';

export interface LabelLayerHandle {
  /** Moves the labels to where the camera now sees their anchors; sizes in CSS pixels. */
  place(camera: PerspectiveCamera, width: number, height: number): void;
}

export interface LabelLayerProps {
  readonly driver: StageDriver;
  readonly shown: boolean;
  readonly ref: Ref<LabelLayerHandle>;
}

/** px between an anchor and its label, and between two labels */
const LEADER = 16;
const APART = 3;

const KEYS = {
  toe: 'stage.label.toe',
  heel: 'stage.label.heel',
  face: 'stage.label.face',
  root: 'stage.label.root',
  drive: 'stage.label.drive',
  coast: 'stage.label.coast',
} as const satisfies Record<LabelName, TextKey>;

interface Placed {
  x: number;
  y: number;
  halfWidth: number;
  halfHeight: number;
}

/** Labels in HTML over the picture: readable at any size, moved by hand each frame and never by React. */
export const LabelLayer = memo(function LabelLayer({ driver, shown, ref }: LabelLayerProps) {
  const t = useText();
  const layer = useRef<HTMLDivElement>(null);
  const measure = useRef<(() => void) | null>(null);

  // Sizes change with the text, the theme and the font's arrival, not with every picture: reading them each time
  // would force a layout per step of a slider.
  useEffect(() => {
    const observer = new ResizeObserver(() => measure.current?.());
    for (const text of layer.current?.querySelectorAll('[data-label] > span') ?? []) observer.observe(text);
    return () => observer.disconnect();
  }, []);

  useImperativeHandle(ref, () => {
    const tooth = new Matrix4();
    const point = new Vector3();
    const from = new Vector3();
    const normal = new Vector3();
    const eye = new Vector3();
    const sizes = new Map<LabelName, Placed>();
    const taken: Placed[] = LABELS.map(() => ({ x: 0, y: 0, halfWidth: 0, halfHeight: 0 }));
    let anchors: readonly Anchor[] = [];
    let anchorsFor: unknown = null;
    let anchorsHome: unknown = null;

    measure.current = () => {
      for (const name of LABELS) {
        const text = layer.current?.querySelector<HTMLElement>(`[data-label="${name}"] > span`);
        if (text) {
          sizes.set(name, { x: 0, y: 0, halfWidth: text.offsetWidth / 2, halfHeight: text.offsetHeight / 2 });
        }
      }
    };
    measure.current();

    const hide = (element: HTMLElement) => {
      element.style.visibility = 'hidden';
    };

    const place = (camera: PerspectiveCamera, width: number, height: number) => {
      const root = layer.current;
      const { facts, scene } = driver;
      if (root === null) return;
      if (facts !== anchorsFor || driver.home !== anchorsHome) {
        anchorsFor = facts;
        anchorsHome = driver.home;
        anchors = facts === null ? [] : anchorsOf(facts, driver.home);
      }
      for (const element of root.children) hide(element as HTMLElement);
      if (!shown || driver.travelling || scene.train === null) return;
      const base = squareFlank(driver.home) === null ? driver.toothInMesh : driver.tooth;
      let used = 0;
      for (const anchor of anchors) {
        const element = root.querySelector<HTMLElement>(`[data-label="${anchor.name}"]`);
        const size = sizes.get(anchor.name);
        if (element === null || size === undefined || size.halfWidth === 0) continue;
        // square on the labels stay with the tooth looked at, elsewhere beside the mesh
        scene.toothMatrix(tooth, base + anchor.toothOffset);
        point.copy(anchor.point).applyMatrix4(tooth);
        from.copy(anchor.from).applyMatrix4(tooth);
        normal.copy(anchor.normal).transformDirection(tooth);
        eye.copy(camera.position).sub(point);
        if (normal.dot(eye) <= 0.04 * eye.length()) continue;
        point.project(camera);
        from.project(camera);
        if (Math.abs(point.z) > 1) continue;
        const px = (point.x * 0.5 + 0.5) * width;
        const py = (0.5 - point.y * 0.5) * height;
        let dx = (point.x - from.x) * width;
        let dy = -(point.y - from.y) * height;
        const length = Math.hypot(dx, dy);
        if (length < 1e-3) {
          dx = 0;
          dy = -1;
        } else {
          dx /= length;
          dy /= length;
        }
        // the box just clears the end of the leader whichever way it points
        const clear = Math.min(
          size.halfWidth / Math.max(Math.abs(dx), 1e-3),
          size.halfHeight / Math.max(Math.abs(dy), 1e-3),
        );
        const spot = taken[used];
        spot.x = px + dx * (LEADER + clear);
        spot.y = py + dy * (LEADER + clear);
        spot.halfWidth = size.halfWidth + APART;
        spot.halfHeight = size.halfHeight + APART;
        const inside =
          spot.x - spot.halfWidth >= 0 &&
          spot.x + spot.halfWidth <= width &&
          spot.y - spot.halfHeight >= 0 &&
          spot.y + spot.halfHeight <= height;
        let free = inside;
        for (let i = 0; free && i < used; i++) {
          free =
            Math.abs(spot.x - taken[i].x) > spot.halfWidth + taken[i].halfWidth ||
            Math.abs(spot.y - taken[i].y) > spot.halfHeight + taken[i].halfHeight;
        }
        if (!free) continue;
        used += 1;
        element.style.visibility = 'visible';
        element.style.transform = `translate(${px.toFixed(1)}px, ${py.toFixed(1)}px)`;
        const line = element.firstElementChild as HTMLElement;
        line.style.transform = `rotate(${Math.atan2(dy, dx).toFixed(3)}rad)`;
        const text = element.lastElementChild as HTMLElement;
        text.style.transform = `translate(${(spot.x - px - size.halfWidth).toFixed(1)}px, ${(spot.y - py - size.halfHeight).toFixed(1)}px)`;
      }
    };
    return { place };
  }, [driver, shown]);

  return (
    <div ref={layer} className={styles.layer}>
      {LABELS.map((name) => (
        <div key={name} data-label={name} className={styles.label}>
          <i className={styles.leader} aria-hidden="true" />
          <span className={styles.text}>{t(KEYS[name])}</span>
        </div>
      ))}
    </div>
  );
});
