import { ShimMap } from '../../areas/explore/shimMap/ShimMap.tsx';
import { shimMap } from '../../text/en/shimMap.ts';
import { addTexts } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { failureWords } from '../Notices.tsx';
import type { PictureProps } from '../PictureFrame.tsx';

addTexts(shimMap);

export function ShimMapPicture(_: PictureProps) {
  const t = useText();
  return <ShimMap failureWords={(failure) => failureWords(failure, t)} />;
}
