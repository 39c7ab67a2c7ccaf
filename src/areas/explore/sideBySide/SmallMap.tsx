import { memo, type ReactNode, useMemo } from 'react';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { SolveResult } from '../../../../sim/worker/protocol.ts';
import { compoundTones } from '../../../flank/compoundTones.ts';
import { inMicrometres } from '../../../flank/contourLevels.ts';
import { projectFlank } from '../../../flank/flankGeometry.ts';
import { layOutMap } from '../../../flank/mapLayout.ts';
import { PatchLayer } from '../../../flank/PatchLayer.tsx';
import { patchScene } from '../../../flank/patchScene.ts';
import { ToothLayer } from '../../../flank/ToothLayer.tsx';
import { useMapWidth } from '../../../flank/useMapWidth.ts';
import { axleOf } from '../../../state/axles.ts';
import type { ShownMesh } from '../../../state/mesh.ts';
import { useText } from '../../../text/useText.ts';
import styles from './sideBySide.module.css';

export interface SmallMapProps {
  readonly side: 'left' | 'right';
  readonly flank: FlankName;
  readonly shown: ShownMesh;
  /** the mark whose outline lies over this one, at the same shares of length and height */
  readonly over?: SolveResult | null;
  readonly compoundColour: string;
}

/** A flank map small enough for four in a row: the mark, its edges and nothing to read but the ends. */
export const SmallMap = memo(function SmallMap({
  side,
  flank,
  shown,
  over = null,
  compoundColour,
}: SmallMapProps): ReactNode {
  const t = useText();
  const [plot, width] = useMapWidth();
  const { hand } = axleOf(shown.axleId).axle;
  const projection = useMemo(
    () => projectFlank(shown.loaded.outline, flank, hand),
    [shown.loaded.outline, flank, hand],
  );
  const layout = useMemo(() => layOutMap(projection, width), [projection, width]);
  const tones = useMemo(() => compoundTones(compoundColour), [compoundColour]);
  const { result } = shown;
  const scene = useMemo(
    () => patchScene(result[flank], result.grid, result.film, projection),
    [result, flank, projection],
  );
  const outline = useMemo(
    () => (over === null ? null : patchScene(over[flank], over.grid, over.film, projection).patch),
    [over, flank, projection],
  );
  const transform = `translate(${layout.originX} ${layout.originY}) scale(${layout.scale})`;
  const name = { side: t(`twin.${side}`), flank: t(`flank.name.${flank}`) };
  const [first, last] = projection.heelOnRight ? (['toe', 'heel'] as const) : (['heel', 'toe'] as const);
  return (
    <figure className={styles.map} data-compared={`${side} ${flank}`}>
      <figcaption className={styles.mapHead}>
        <span>{t(`flank.edge.${first}`)}</span>
        <b>{name.flank}</b>
        <span>{t(`flank.edge.${last}`)}</span>
      </figcaption>
      <div ref={plot}>
        <svg
          className={styles.drawing}
          viewBox={`0 0 ${layout.width} ${layout.height}`}
          width={layout.width}
          height={layout.height}
          role="img"
          aria-label={t(outline === null ? 'twin.map' : 'twin.map.both', name)}
        >
          <ToothLayer projection={projection} coat={tones.coat} transform={transform} />
          <PatchLayer
            scene={scene}
            contours={NO_LINES}
            formatSeparation={inMicrometres}
            tones={tones}
            layout={layout}
            transform={transform}
          />
          {outline !== null && outline !== '' && (
            <g transform={transform} data-part="left outline">
              <path className={styles.outlineHalo} d={outline} />
              <path className={styles.outline} d={outline} />
            </g>
          )}
        </svg>
      </div>
    </figure>
  );
});

const NO_LINES = [] as const;
