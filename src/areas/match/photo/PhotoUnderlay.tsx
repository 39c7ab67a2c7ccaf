import { useEffect, useState } from 'react';
import type { MapFrame } from '../../../flank/FlankMap.tsx';
import { drawStraightened } from './drawStraightened.ts';
import type { Photo } from './photos.ts';

export interface PhotoUnderlayProps {
  readonly frame: MapFrame;
  readonly photo: Photo;
}

/** px per px of the drawing; the photo need not be sharper than the screen */
const DENSITY = 1.5;

/** The straightened photo under the paint. */
export function PhotoUnderlay({ frame, photo }: PhotoUnderlayProps) {
  const { projection, transform, layout } = frame;
  const [address, setAddress] = useState<string | null>(null);
  const { bounds } = projection;
  const width = Math.round(bounds.width * layout.scale * DENSITY);
  const height = Math.round(bounds.height * layout.scale * DENSITY);
  useEffect(() => {
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    if (!drawStraightened(photo, projection, canvas)) {
      setAddress(null);
      return;
    }
    let ended = false;
    canvas.toBlob((blob) => {
      if (blob !== null && !ended) setAddress(URL.createObjectURL(blob));
    });
    return () => {
      ended = true;
    };
  }, [photo, projection, width, height]);
  // given up only when the next picture stands in its place: until then the page may load it again
  useEffect(() => {
    if (address !== null) return () => URL.revokeObjectURL(address);
  }, [address]);
  if (address === null) return null;
  return (
    <g transform={transform} data-layer="photo">
      <image
        href={address}
        x={bounds.x}
        y={bounds.y}
        width={bounds.width}
        height={bounds.height}
        preserveAspectRatio="none"
      />
    </g>
  );
}
