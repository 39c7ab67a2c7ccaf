import { useFrame, useThree } from '@react-three/fiber';
import { memo, type RefObject, useEffect, useRef } from 'react';
import { Matrix4, type PerspectiveCamera } from 'three';
import { SceneCanvas } from '../SceneCanvas.tsx';
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
  const invalidate = useThree((state) => state.invalidate);
  const width = useThree((state) => state.size.width);
  const height = useThree((state) => state.size.height);
  const camera = useThree((state) => state.camera) as PerspectiveCamera;
  const projection = useRef(new Matrix4());

  useEffect(() => {
    driver.camera = camera;
    driver.wake = () => {
      if (surface.current !== null) surface.current.dataset.settled = 'false';
      invalidate();
    };
    driver.wake();
    return () => {
      driver.wake = () => {};
      driver.camera = null;
    };
  }, [driver, invalidate, surface, camera]);

  useEffect(() => driver.setPicture(width, height), [driver, width, height]);

  // A priority of its own: this callback draws, so that what it reads after drawing belongs to the same frame.
  useFrame((state, seconds) => {
    const again = driver.update(seconds);
    driver.placeCamera(camera);
    state.gl.render(state.scene, camera);
    labels.current?.place(camera, state.size.width, state.size.height);
    const element = surface.current;
    if (element !== null) {
      element.dataset.settled = String(!again);
      if (!again && driver.scene.layout !== null) {
        projection.current.multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse);
        element.dataset.viewProjection = projection.current.elements.join(' ');
        element.dataset.triangles = String(state.gl.info.render.triangles);
        element.dataset.calls = String(state.gl.info.render.calls);
        element.dataset.factor = String(driver.scene.factor);
      }
    }
    if (again) invalidate();
  }, 1);

  return <primitive object={driver.scene.root} />;
}

export const HousingCanvas = memo(function HousingCanvas(props: HousingCanvasProps) {
  const { densest, onLost, onRestored, onBroken, driver } = props;
  return (
    <SceneCanvas
      densest={densest}
      onLost={onLost}
      onRestored={() => {
        onRestored();
        driver.wake();
      }}
      onBroken={onBroken}
    >
      <Frame {...props} />
    </SceneCanvas>
  );
});
