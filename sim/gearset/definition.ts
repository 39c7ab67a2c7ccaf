/** The four numbers and two centres that shape one flank's ease-off (docs/model.md §6). Amounts in µm, centres in flank coordinates. */
export interface EaseOffDefinition {
  /** µm removed from the pinion one half face width away from the centre. */
  readonly lengthwise: number;
  /** µm removed from the pinion one half working height away from the centre. */
  readonly profile: number;
  /** µm, mixed coefficient; a hill needs lengthwise·profile > bias². */
  readonly bias: number;
  /** Flank coordinate u of the centre, −1 toe … +1 heel. */
  readonly centerToeHeel: number;
  /** Flank coordinate v of the centre, −1 working root … +1 face. */
  readonly centerRootFace: number;
}

export interface FaceMilledCut {
  readonly method: 'face-milled';
  /** mm */
  readonly cutterRadius: number;
  /** degrees; omitted: it follows from the cutter radius. */
  readonly ringPitchAngle?: number | undefined;
}

export interface FaceHobbedCut {
  readonly method: 'face-hobbed';
  /** mm */
  readonly cutterRadius: number;
  /** number of blade groups on the cutter head */
  readonly bladeGroups: number;
  /** degrees */
  readonly ringPitchAngle: number;
}

export interface ToothDefinition {
  /** degrees, mean of the two blade angles */
  readonly pressureAngle: number;
  /** working depth / mean normal module */
  readonly depthFactor: number;
  /** ring addendum / working depth */
  readonly ringAddendumFactor: number;
  /** clearance / working depth */
  readonly clearanceFactor: number;
  /** 1 full taper toward the pitch apex, 0 uniform depth */
  readonly depthTaper: number;
  /** ring slot width at the pitch plane / (π · mean normal module) */
  readonly slotFactor: number;
}

/**
 * A hypoid gear set as a file or command line states it (docs/model.md §1): mm, degrees and µm.
 * The schema with ranges and labels lives in models/; `buildGearMesh` checks makeability.
 */
export interface GearSetDefinition {
  readonly pinionTeeth: number;
  readonly ringTeeth: number;
  /** mm */
  readonly ringOuterDiameter: number;
  /** mm, positive or negative, not zero */
  readonly offset: number;
  /** degrees, magnitude */
  readonly pinionSpiralAngle: number;
  /** mm */
  readonly faceWidth: number;
  readonly cut: FaceMilledCut | FaceHobbedCut;
  readonly tooth: ToothDefinition;
  readonly easeOff: { readonly drive: EaseOffDefinition; readonly coast: EaseOffDefinition };
  /** mm, smallest dial reading over a pitch, square to the drive flank at the heel, design pose */
  readonly backlash: number;
}

export const FLANKS = ['drive', 'coast'] as const;
export type FlankName = (typeof FLANKS)[number];
