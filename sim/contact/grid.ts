/** Nodes of the flank grid: `columns` along u (toe→heel), `rows` along v (working root→face). */
export interface GridSize {
  readonly columns: number;
  readonly rows: number;
}

/** Display grid (docs/model.md §9). */
export const DISPLAY_GRID: GridSize = { columns: 61, rows: 31 };

/** Grid for wide searches only. */
export const SEARCH_GRID: GridSize = { columns: 31, rows: 15 };

/** Phases at which transmission error and backlash are tabulated over one ring pitch; a power of two. */
export const PHASES_PER_PITCH = 64;

/** Placed in grid arrays where a ring point has no contact root (never meets the pinion flank). */
export const NOT_MEETING = 1e6;
