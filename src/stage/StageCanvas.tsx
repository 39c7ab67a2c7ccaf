import { useThree } from '@react-three/fiber';
import { memo, type RefObject, useEffect, useRef } from 'react';
import { Matrix4 } from 'three';
import type { StageDriver } from './driver.ts';
import type { LabelLayerHandle } from './labels/LabelLayer.tsx';
import { SceneCanvas } from './SceneCanvas.tsx';
import { useFrames } from './useFrames.ts';

/** What one frame at full detail cost the graphics card. */
export interface StageStats {
  readonly triangles: number;
  readonly calls: number;
}

export interface StageCanvasProps {
  readonly driver: StageDriver;
  /** takes the data attributes described at GearStage */
  readonly surface: RefObject<HTMLElement | null>;
  readonly labels: RefObject<LabelLayerHandle | null>;
  /** device pixels per CSS pixel at most */
  readonly densest: number;
  readonly onRoll: (ringAngle: number) => void;
  readonly onStats: (stats: StageStats) => void;
  readonly onLost: () => void;
  readonly onRestored: () => void;
  /** the canvas could not be set up at all */
  readonly onBroken: () => void;
}

/** CSS pixels of a contact line's core. */
const LINE_WIDTH = 1.5;

function Frame({ driver, surface, labels, onRoll, onStats }: StageCanvasProps) {
  const density = useThree((state) => state.viewport.dpr);
  const projection = useRef(new Matrix4());
  const last = useRef({ roll: Number.NaN, triangles: -1, calls: -1 });

  useEffect(() => {
    driver.scene.setLines(1, LINE_WIDTH * density);
    driver.wake();
  }, [driver, density]);

  useFrames(driver, surface, ({ state, camera, settled }, element) => {
    labels.current?.place(camera, state.size.width, state.size.height);

    const { triangles, calls } = state.gl.info.render;
    if (triangles !== last.current.triangles || calls !== last.current.calls) {
      last.current.triangles = triangles;
      last.current.calls = calls;
      onStats({ triangles, calls });
    }
    if (driver.ringAngle !== last.current.roll) {
      last.current.roll = driver.ringAngle;
      onRoll(driver.ringAngle);
    }
    if (element !== null && settled && driver.scene.train !== null) {
      projection.current.multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse);
      element.dataset.viewProjection = projection.current.elements.join(' ');
      element.dataset.toothAngle = String(driver.toothAngle);
      element.dataset.tooth = String(driver.tooth);
      element.dataset.triangles = String(triangles);
      element.dataset.calls = String(calls);
    }
  });

  return <primitive object={driver.scene.root} />;
}

/** A new solution goes to the scene past React: the canvas itself is never rendered anew for it. */
export const StageCanvas = memo(function StageCanvas(props: StageCanvasProps) {
  const { densest, onLost, onRestored, onBroken, driver } = props;
  return (
    <SceneCanvas {...{ driver, densest, onLost, onRestored, onBroken }}>
      <Frame {...props} />
    </SceneCanvas>
  );
});
