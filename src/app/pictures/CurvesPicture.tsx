import { CurvesView } from '../../areas/explore/curves/CurvesView.tsx';
import { curves } from '../../text/en/curves.ts';
import { addTexts } from '../../text/translate.ts';
import type { PictureProps } from '../PictureFrame.tsx';

addTexts(curves);

export function CurvesPicture(_: PictureProps) {
  return <CurvesView />;
}
