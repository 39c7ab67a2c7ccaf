import type { EaseOffDefinition, FlankName } from '../gearset/definition.ts';
import { easeOffCoefficients } from '../gearset/easeOff.ts';
import type { GearMesh } from '../gearset/gearMesh.ts';
import { TURN } from '../math/angles.ts';
import { DISPLAY_GRID, type GridSize, NOT_MEETING } from './grid.ts';
import { markTilt } from './markTilt.ts';
import { createMarkRule, describePatch, type Patch, separate, setFilm } from './patch.ts';
import type { PosedFlank } from './posedFlank.ts';
import { tabulateTip } from './tipTable.ts';
import { createTransmissionTable, type TransmissionTable, tabulateTransmission } from './transmission.ts';

/** The mark of one flank in the design position, flank coordinates (docs/model.md §7). NaN centre and tilt without a mark. */
export interface HomePatch {
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly length: number;
  readonly height: number;
  /** slope dv/du of the line along the mark */
  readonly tilt: number;
}

/**
 * One flank in the design position with any ease-off. There every point meets its own partner, so the gap is e/|λ| and
 * nothing else (docs/model.md §6, §7): a changed ease-off needs no table, and the answer is that of a solver built anew.
 */
export class HomeFlank {
  readonly flank: FlankName;
  readonly size: GridSize;
  /** |λ|, mm per rad; 1 where a point never meets */
  readonly lever: Float64Array;
  private readonly posed: PosedFlank;
  private readonly transmission: TransmissionTable;
  private readonly separation: Float64Array;
  private readonly rule: ReturnType<typeof createMarkRule>;
  private readonly patch: Patch = {
    toeHeel: 0.5,
    rootFace: 0.5,
    length: 0.5,
    height: 0.5,
    area: 0.5,
    edges: 0,
  };

  constructor(mesh: GearMesh, flank: FlankName, size: GridSize = DISPLAY_GRID) {
    this.flank = flank;
    this.size = size;
    const { columns, rows } = size;
    const nodes = columns * rows;
    const { pinion } = mesh.flanks[flank];
    const partners = Array.from({ length: nodes }, (_, node) =>
      pinion.partner(
        -1 + (2 * (node % columns)) / (columns - 1),
        -1 + (2 * Math.floor(node / columns)) / (rows - 1),
      ),
    );
    const tipAt = tabulateTip(mesh, partners);
    this.posed = {
      phase: new Float64Array(nodes).fill(NOT_MEETING),
      gap: new Float64Array(nodes).fill(NOT_MEETING),
      tipClearance: new Float64Array(nodes).fill(-NOT_MEETING),
      probe: new Float64Array(3),
    };
    this.lever = new Float64Array(nodes).fill(1);
    partners.forEach((partner, node) => {
      if (!partner) return;
      this.posed.phase[node] = partner.phase;
      this.posed.tipClearance[node] = tipAt(partner.axial) - partner.radius;
      this.lever[node] = Math.abs(partner.lever);
    });
    this.transmission = createTransmissionTable(TURN / mesh.definition.ringTeeth);
    this.separation = new Float64Array(nodes);
    this.rule = createMarkRule(0);
  }

  /** The mark with this ease-off and film, mm. */
  patchFor(easeOff: EaseOffDefinition, film: number): HomePatch {
    const { columns, rows } = this.size;
    const { gap, phase, tipClearance } = this.posed;
    const [c0, cu, cv, cuu, cuv, cvv] = easeOffCoefficients(easeOff);
    for (let j = 0, node = 0; j < rows; j++) {
      const v = -1 + (2 * j) / (rows - 1);
      for (let i = 0; i < columns; i++, node++) {
        if (phase[node] === NOT_MEETING) continue;
        const u = -1 + (2 * i) / (columns - 1);
        gap[node] = (c0 + u * (cu + u * cuu + v * cuv) + v * (cv + v * cvv)) / this.lever[node];
      }
    }
    tabulateTransmission(this.posed, columns, rows, false, this.transmission);
    separate(this, this.posed, this.transmission, this.separation);
    setFilm(this.rule, film);
    describePatch(this.separation, tipClearance, columns, rows, this.rule, this.patch);
    const { toeHeel, rootFace, length, height } = this.patch;
    const tilt = markTilt({ separation: this.separation, tipClearance }, columns, rows, film);
    return { toeHeel, rootFace, length, height, tilt };
  }
}
