import type { PictureProps } from '../PictureFrame.tsx';

export function SideBySidePicture(_: PictureProps) {
  return null;
}
