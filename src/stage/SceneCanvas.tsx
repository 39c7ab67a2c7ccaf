import { Canvas } from '@react-three/fiber';
import { Component, type ReactNode } from 'react';
import { FIELD_OF_VIEW } from './camera/rig.ts';
import type { Driven } from './useFrames.ts';

export interface SceneCanvasProps {
  /** woken when a lost canvas is there again */
  readonly driver: Pick<Driven, 'wake'>;
  /** device pixels per CSS pixel at most */
  readonly densest: number;
  readonly onLost: () => void;
  readonly onRestored: () => void;
  /** the canvas could not be set up at all */
  readonly onBroken: () => void;
  /** what draws: it asks for its own frames */
  readonly children: ReactNode;
}

/** Turns a canvas that cannot be set up into a report instead of an empty page. */
class Guard extends Component<
  { readonly children: ReactNode; readonly onBroken: () => void },
  { broken: boolean }
> {
  override state = { broken: false };
  static getDerivedStateFromError() {
    return { broken: true };
  }
  override componentDidCatch() {
    this.props.onBroken();
  }
  override render() {
    return this.state.broken ? null : this.props.children;
  }
}

/**
 * Hands work on elements of the page (camera/useHands.ts); nothing in the scene listens. The library's own listeners
 * would be laid on an element that is gone when a picture is left before its canvas is ready.
 */
const NO_EVENTS = () => ({ enabled: false, priority: 0 });

/** A canvas that draws only when asked, and survives the loss of its context. */
export function SceneCanvas({ driver, densest, onLost, onRestored, onBroken, children }: SceneCanvasProps) {
  return (
    <Guard onBroken={onBroken}>
      <Canvas
        frameloop="demand"
        dpr={[1, densest]}
        flat
        camera={{ fov: FIELD_OF_VIEW }}
        gl={{ antialias: true, alpha: true, stencil: false, powerPreference: 'high-performance' }}
        aria-hidden="true"
        events={NO_EVENTS}
        onCreated={({ gl }) => {
          const canvas = gl.domElement;
          canvas.addEventListener('webglcontextlost', (event) => {
            // lets the browser give the context back
            event.preventDefault();
            onLost();
          });
          canvas.addEventListener('webglcontextrestored', () => {
            onRestored();
            driver.wake();
          });
        }}
      >
        {children}
      </Canvas>
    </Guard>
  );
}
