import { useThree } from '@react-three/fiber';
import { memo, type RefObject, useEffect, useRef } from 'react';
import { Matrix4, type PerspectiveCamera } from 'three';
import { SceneCanvas } from '../SceneCanvas.tsx';
import { useFrames } from '../useFrames.ts';
import type { HousingLabelsHandle } from './HousingLabels.tsx';
import type { HousingDriver } from './housingDriver.ts';

export interface HousingCanvasProps {
  readonly driver: HousingDriver;
  /** takes the data attributes described at HousingStage */
  readonly surface: RefObject<HTMLElement | null>;
  readonly labels: RefObject<HousingLabelsHandle | null>;
  /** device pixels per CSS pixel at most */
  readonly densest: number;
  readonly onLost: () => void;
  readonly onRestored: () => void;
  readonly onBroken: () => void;
}

function Frame({ driver, surface, labels }: HousingCanvasProps) {
  const camera = useThree((state) => state.camera) as PerspectiveCamera;
  const projection = useRef(new Matrix4());

  useEffect(() => {
    driver.camera = camera;
    return () => {
      driver.camera = null;
    };
  }, [driver, camera]);

  useFrames(driver, surface, ({ state, settled }, element) => {
    labels.current?.place(camera, state.size.width, state.size.height);
    if (element !== null && settled && driver.scene.layout !== null) {
      projection.current.multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse);
      element.dataset.viewProjection = projection.current.elements.join(' ');
      element.dataset.triangles = String(state.gl.info.render.triangles);
      element.dataset.calls = String(state.gl.info.render.calls);
      element.dataset.factor = String(driver.scene.factor);
    }
  });

  return <primitive object={driver.scene.root} />;
}

export const HousingCanvas = memo(function HousingCanvas(props: HousingCanvasProps) {
  const { densest, onLost, onRestored, onBroken, driver } = props;
  return (
    <SceneCanvas {...{ driver, densest, onLost, onRestored, onBroken }}>
      <Frame {...props} />
    </SceneCanvas>
  );
});
