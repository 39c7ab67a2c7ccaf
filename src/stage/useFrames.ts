import { type RootState, useFrame, useThree } from '@react-three/fiber';
import { type RefObject, useEffect } from 'react';
import type { PerspectiveCamera } from 'three';

/** What moves in a canvas, and its camera. */
export interface Driven {
  /** asks for a frame; set by the canvas that draws */
  wake: () => void;
  /** CSS pixels */
  setPicture(width: number, height: number): void;
  /** Advances by `seconds`; true when another frame is wanted. */
  update(seconds: number): boolean;
  placeCamera(camera: PerspectiveCamera): void;
}

export interface Drawn {
  readonly state: RootState;
  readonly camera: PerspectiveCamera;
  /** nothing moves any more */
  readonly settled: boolean;
}

/**
 * Draws what `driver` moves whenever it is woken and as long as it goes on; `surface` says in `data-settled` whether it
 * does. `drawn` is called after each frame, so that what it reads belongs to that frame.
 */
export function useFrames(
  driver: Driven,
  surface: RefObject<HTMLElement | null>,
  drawn: (frame: Drawn, surface: HTMLElement | null) => void,
): void {
  const invalidate = useThree((state) => state.invalidate);
  const width = useThree((state) => state.size.width);
  const height = useThree((state) => state.size.height);

  useEffect(() => {
    driver.wake = () => {
      if (surface.current !== null) surface.current.dataset.settled = 'false';
      invalidate();
    };
    driver.wake();
    return () => {
      driver.wake = () => {};
    };
  }, [driver, invalidate, surface]);

  useEffect(() => driver.setPicture(width, height), [driver, width, height]);

  // a priority of its own: this callback draws
  useFrame((state, seconds) => {
    const again = driver.update(seconds);
    const camera = state.camera as PerspectiveCamera;
    driver.placeCamera(camera);
    state.gl.render(state.scene, camera);
    if (surface.current !== null) surface.current.dataset.settled = String(!again);
    drawn({ state, camera, settled: !again }, surface.current);
    if (again) invalidate();
  }, 1);
}
