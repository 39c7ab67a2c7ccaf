import type { FlankName } from '../../sim/gearset/definition.ts';
import { EDGES, type EdgeName, FLANKS } from '../../sim/worker/protocol.ts';
import { HATCH_SPACING, HATCH_STROKES, HATCH_TURNS } from './hatching.ts';
import styles from './ShimMap.module.css';

export const hatchName = (flank: FlankName, edge: EdgeName): string => `${flank}-${edge}`;

/** Patterns, to be filled with `url(#id-name)`: one per flank and edge, and `bars` for binding. */
export function Hatches({ id }: { readonly id: string }) {
  return (
    <>
      {FLANKS.flatMap((flank) =>
        EDGES.map((edge) => (
          <pattern
            key={hatchName(flank, edge)}
            id={`${id}-${hatchName(flank, edge)}`}
            width={HATCH_SPACING}
            height={HATCH_SPACING}
            patternUnits="userSpaceOnUse"
            patternTransform={`rotate(${HATCH_TURNS[edge]})`}
          >
            <path
              className={styles.hatch}
              strokeWidth={HATCH_STROKES[flank].width}
              strokeDasharray={HATCH_STROKES[flank].dashes.join(' ') || undefined}
              d={`M0 ${HATCH_SPACING / 2}H${HATCH_SPACING}`}
            />
          </pattern>
        )),
      )}
      <pattern id={`${id}-bars`} width={12} height={12} patternUnits="userSpaceOnUse">
        <path className={styles.bars} d="M2 2 10 10M10 2 2 10" />
      </pattern>
    </>
  );
}
