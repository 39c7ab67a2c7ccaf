/** What a slanted mark needs of a solved flank; grid arrays of one flank. */
export interface MarkFields {
  /** mm */
  readonly separation: ArrayLike<number>;
  /** mm, negative = no pinion tooth opposite */
  readonly tipClearance: ArrayLike<number>;
}

/** Share of the way from an unmarked node to a marked one at which the mark begins, as in patch.ts. */
const beginsAt = (
  { separation, tipClearance }: MarkFields,
  film: number,
  unmarked: number,
  marked: number,
): number => {
  const sep = separation[unmarked];
  const clear = tipClearance[unmarked];
  const bySeparation = sep > film ? (sep - film) / (sep - separation[marked]) : 0;
  const byTip = clear < 0 ? clear / (clear - tipClearance[marked]) : 0;
  return Math.max(bySeparation, byTip);
};

/**
 * How the mark slants (docs/model.md §7): the slope dv/du of the straight line that follows it best, cov(u, v)/var(u) over
 * the marked part of the (u, v) square; positive = higher on the tooth toward the heel. NaN without a mark.
 */
export const markTilt = (fields: MarkFields, columns: number, rows: number, film: number): number => {
  const { separation, tipClearance } = fields;
  const du = 2 / (columns - 1);
  const dv = 2 / (rows - 1);
  const inside = (node: number): boolean => separation[node] <= film && tipClearance[node] >= 0;
  let mass = 0;
  let sumU = 0;
  let sumV = 0;
  let sumUU = 0;
  let sumUV = 0;
  for (let j = 0; j < rows; j++) {
    const v = -1 + j * dv;
    const weight = j === 0 || j === rows - 1 ? 0.5 : 1;
    for (let i = 1; i < columns; i++) {
      const after = j * columns + i;
      const before = after - 1;
      const isAfter = inside(after);
      const isBefore = inside(before);
      if (!isAfter && !isBefore) continue;
      let from = -1 + (i - 1) * du;
      let to = from + du;
      if (!isBefore) from += du * beginsAt(fields, film, before, after);
      if (!isAfter) to -= du * beginsAt(fields, film, after, before);
      const length = weight * (to - from);
      const middle = 0.5 * (from + to);
      mass += length;
      sumU += length * middle;
      sumV += length * v;
      sumUU += length * (middle * middle + (to - from) ** 2 / 12);
      sumUV += length * middle * v;
    }
  }
  return (sumUV - (sumU * sumV) / mass) / (sumUU - (sumU * sumU) / mass);
};
