import type { EaseOffDefinition, FlankName, GearSetDefinition } from './definition.ts';
import { UnmakeableError } from './errors.ts';
import { buildGearMesh } from './gearMesh.ts';

/** What a caliper and a count of teeth tell of a gear set. Its hand only mirrors it (docs/model.md §1). */
export interface CaliperReading {
  readonly pinionTeeth: number;
  readonly ringTeeth: number;
  /** mm */
  readonly ringOuterDiameter: number;
  /** mm */
  readonly faceWidth: number;
  /** mm, not zero */
  readonly offset: number;
  /** tapered: deeper at the heel, taken as face-milled; uniform: the same all along, taken as face-hobbed */
  readonly depth: 'tapered' | 'uniform';
}

/** A start for one's own axle: everything the caliper does not tell is a stated default of ours. */
export type CaliperStart =
  | {
      readonly makeable: true;
      readonly definition: GearSetDefinition;
      /** defaults that had to give way, as dotted fields of the definition */
      readonly altered: readonly string[];
    }
  | {
      readonly makeable: false;
      /** with the defaults as they stand */
      readonly definition: GearSetDefinition;
      readonly error: UnmakeableError;
    };

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
const round = (value: number, digits: number): number => Number(value.toFixed(digits));

const EASE_OFF: Readonly<Record<FlankName, EaseOffDefinition>> = {
  drive: { lengthwise: 38, profile: 32, bias: -7, centerToeHeel: -0.1, centerRootFace: 0.12 },
  coast: { lengthwise: 38, profile: 34, bias: 7, centerToeHeel: -0.05, centerRootFace: 0.15 },
};

/** What may give way, as factors and differences on the defaults. */
interface Change {
  /** degrees */
  readonly spiral: number;
  readonly depth: number;
  readonly cutter: number;
}

const UNCHANGED: Change = { spiral: 0, depth: 1, cutter: 1 };

/** Shallower first, since few pinion teeth want shallow ones; then a steeper spiral and another cutter with it. */
const CHANGES: readonly Change[] = [0, 4, -4, 8].flatMap((spiral) =>
  [1, 1.2, 0.85].flatMap((cutter) =>
    [1, 0.92, 0.84, 0.76, 0.68, 0.6].map((depth) => ({ spiral, depth, cutter })),
  ),
);

/** The defaults (docs/model.md §1), with a change. */
const definitionFor = (reading: CaliperReading, change: Change): GearSetDefinition => {
  const { pinionTeeth, ringTeeth, ringOuterDiameter, faceWidth, offset, depth } = reading;
  const share = Math.abs(offset) / ringOuterDiameter;
  const ratio = ringTeeth / pinionTeeth;
  const shared = {
    pinionTeeth,
    ringTeeth,
    ringOuterDiameter,
    faceWidth,
    offset,
    pinionSpiralAngle: round(clamp(34 + 92 * share, 35, 52) + change.spiral, 2),
    easeOff: EASE_OFF,
    backlash: round(clamp(0.0007 * ringOuterDiameter, 0.08, 0.4), 2),
  };
  if (depth === 'tapered') {
    return {
      ...shared,
      cut: { method: 'face-milled', cutterRadius: round(0.45 * ringOuterDiameter * change.cutter, 2) },
      tooth: {
        pressureAngle: 21,
        depthFactor: round(1.94 * change.depth, 3),
        ringAddendumFactor: 0.17,
        clearanceFactor: 0.125,
        depthTaper: 0.8,
        slotFactor: 0.58,
      },
    };
  }
  const straight = (Math.atan(ratio) * 180) / Math.PI;
  return {
    ...shared,
    cut: {
      method: 'face-hobbed',
      cutterRadius: round(0.36 * ringOuterDiameter * change.cutter, 2),
      bladeGroups: 13,
      ringPitchAngle: round(clamp(straight - 40 * share, 50, 84), 2),
    },
    tooth: {
      pressureAngle: 20,
      depthFactor: round(1.68 * change.depth, 3),
      ringAddendumFactor: 0.18,
      clearanceFactor: 0.125,
      depthTaper: 0,
      slotFactor: 0.6,
    },
  };
};

const refusalOf = (definition: GearSetDefinition): UnmakeableError | null => {
  try {
    buildGearMesh(definition);
    return null;
  } catch (error) {
    if (error instanceof UnmakeableError) return error;
    throw error;
  }
};

const ALTERABLE = [
  ['pinionSpiralAngle', (of: GearSetDefinition) => of.pinionSpiralAngle],
  ['cut.cutterRadius', (of: GearSetDefinition) => of.cut.cutterRadius],
  ['tooth.depthFactor', (of: GearSetDefinition) => of.tooth.depthFactor],
] as const;

/**
 * A full gear set from a caliper (docs/model.md §1). Where the defaults together cannot be made, depth, spiral and cutter
 * give way in stated steps; where none of them will do, the refusal of the defaults is the answer.
 */
export const startFromCaliper = (reading: CaliperReading): CaliperStart => {
  const definition = definitionFor(reading, UNCHANGED);
  const error = refusalOf(definition);
  if (!error) return { makeable: true, definition, altered: [] };
  // A number that no change of the defaults mends.
  if (error.code === 'bad-value') return { makeable: false, definition, error };
  for (const change of CHANGES) {
    const changed = definitionFor(reading, change);
    if (refusalOf(changed)) continue;
    const altered = ALTERABLE.filter(([, read]) => read(changed) !== read(definition)).map(
      ([field]) => field,
    );
    return { makeable: true, definition: changed, altered };
  }
  return { makeable: false, definition, error };
};
