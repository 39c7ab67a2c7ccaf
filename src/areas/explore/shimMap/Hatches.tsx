import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { EDGES, type EdgeName } from '../../../../sim/worker/protocol.ts';
import styles from './ShimMap.module.css';

/**
 * Lines lie as the edge does on a flank map: toe and heel are its upright ends (lines leaning to one side and to the
 * other, since both could not be upright), face and root its long borders. Drive in full lines, coast in dotted ones.
 */
export const HATCH_TURNS: Readonly<Record<EdgeName, number>> = { toe: 45, heel: -45, face: 0, root: 90 };
const FLANKS = ['drive', 'coast'] as const satisfies readonly FlankName[];
/** px from line to line */
export const HATCH_SPACING = 9;

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
              data-flank={flank}
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
