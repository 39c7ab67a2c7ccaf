import type { PictureProps } from '../PictureFrame.tsx';

export function CurvesPicture(_: PictureProps) {
  return null;
}
