import type { PictureProps } from '../PictureFrame.tsx';

export function DialPicture(_: PictureProps) {
  return null;
}
