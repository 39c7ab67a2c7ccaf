import type { PictureProps } from '../PictureFrame.tsx';

export function ShimMapPicture(_: PictureProps) {
  return null;
}
