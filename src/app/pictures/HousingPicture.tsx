import type { PictureProps } from '../PictureFrame.tsx';

export function HousingPicture(_: PictureProps) {
  return null;
}
