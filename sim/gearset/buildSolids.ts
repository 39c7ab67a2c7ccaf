import type { GearMesh } from './gearMesh.ts';
import { buildPinionSolid } from './pinionSolid.ts';
import { buildRingSolid } from './ringSolid.ts';
import type { GearSolids, SolidDetail } from './solids.ts';
import { type SectorDetail, sectorTriangles } from './toothSector.ts';

/** Triangles to spend on all teeth together, and segments of the bodies of revolution. */
const BUDGET: Readonly<Record<SolidDetail, { readonly teeth: number; readonly segments: number }>> = {
  full: { teeth: 96_000, segments: 144 },
  reduced: { teeth: 26_000, segments: 72 },
};

/** Finest to coarsest; the first that fits the budget is used. */
const LADDER: readonly SectorDetail[] = [
  { along: 24, flank: 12, fillet: 5 },
  { along: 20, flank: 10, fillet: 5 },
  { along: 18, flank: 9, fillet: 4 },
  { along: 14, flank: 8, fillet: 4 },
  { along: 12, flank: 7, fillet: 3 },
  { along: 10, flank: 5, fillet: 3 },
  { along: 8, flank: 4, fillet: 2 },
  { along: 6, flank: 3, fillet: 2 },
  { along: 4, flank: 2, fillet: 1 },
];

/**
 * Drawable ring and pinion of a gear set, from the very surfaces the solver uses. `thinning` (rad of pinion) is the
 * turn of the pinion's coast flank that leaves the design backlash.
 */
export const buildGearSolids = (mesh: GearMesh, thinning: number, detail: SolidDetail): GearSolids => {
  const teeth = mesh.definition.ringTeeth + mesh.definition.pinionTeeth;
  const { teeth: budget, segments } = BUDGET[detail];
  const sector = LADDER.find((rung) => sectorTriangles(rung) * teeth <= budget) ?? LADDER[LADDER.length - 1];
  return {
    ring: buildRingSolid(mesh, sector, segments),
    pinion: buildPinionSolid(mesh, thinning, sector, segments),
  };
};
