import { useMemo } from 'react';
import type { MapFrame } from '../../../flank/FlankMap.tsx';
import { patchScene } from '../../../flank/patchScene.ts';
import { placeShown, useDial } from '../../../state/dial.ts';
import { useMesh } from '../../../state/mesh.ts';
import { dial } from '../../../text/en/dial.ts';
import { addTexts } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import styles from './PlaceLayer.module.css';

addTexts(dial);

/** On a flank map: the mark at the place of the ring where the dial stands, over the mark of a ring that runs true. */
export function PlaceLayer({ frame }: { readonly frame: MapFrame }) {
  const t = useText();
  const { flank, projection, transform } = frame;
  const shown = useMesh((state) => state.shown);
  const index = useDial((state) => state.place);
  const place = useDial((state) => placeShown(state, shown));
  const result = place?.result ?? null;
  const scene = useMemo(
    () => (result === null ? null : patchScene(result[flank], result.grid, result.film, projection)),
    [result, flank, projection],
  );
  if (scene === null || place === null || index === null) return null;
  const [x, y] = frame.place(0, -1);
  const words = t('dial.map.place', { place: index + 1, tooth: place.tooth + 1 });
  return (
    <g data-layer="dial-place">
      <title>{words}</title>
      <g transform={transform}>
        <path className={styles.halo} d={scene.patch} />
        <path className={styles.outline} d={scene.patch} data-part="place-patch" />
      </g>
      <text className={styles.label} x={x} y={y - 6}>
        {words}
      </text>
    </g>
  );
}
