import { type RefObject, useEffect, useMemo, useState } from 'react';
import { useThemeInForce } from '../app/ui/useThemeInForce.ts';
import { useText } from '../text/useText.ts';
import { type GroundColours, groundColours } from './drawGround.ts';
import { mapWords } from './mapLabels.ts';
import type { MapFrame } from './pictureProtocol.ts';
import type { PlotBox } from './scales.ts';
import type { BoxSize } from './useBoxSize.ts';

/** What a picture of the map is drawn for; colours are those of the style of `ref`. Null until it has a size. */
export function useMapFrame(
  ref: RefObject<Element | null>,
  size: BoxSize | null,
  box: PlotBox | null,
): MapFrame | null {
  const t = useText();
  const words = useMemo(() => mapWords(t), [t]);
  const theme = useThemeInForce();
  const [colours, setColours] = useState<GroundColours | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the page has the colours of another theme only now
  useEffect(() => {
    if (ref.current !== null) setColours(groundColours(ref.current));
  }, [ref, theme]);
  return useMemo(
    () => (size === null || box === null || colours === null ? null : { size, box, colours, words }),
    [size, box, colours, words],
  );
}
