import type { EaseOffDefinition, GearSetDefinition } from './definition.ts';

/** What a caliper does not tell, as half-widths about the stated value (docs/model.md §9); all drawn evenly. */
export interface Unknowns {
  /** share of the cutter radius */
  readonly cutterRadius: number;
  /** degrees of pinion spiral */
  readonly spiral: number;
  /** flank coordinates of each ease-off centre, either way */
  readonly center: number;
  /** share of each flank's lengthwise and profile ease-off, each by itself; the bias keeps its share of them */
  readonly crowning: number;
}

export const DEFAULT_UNKNOWNS: Unknowns = { cutterRadius: 0.1, spiral: 3, center: 0.2, crowning: 0.3 };

/** Numbers one draw takes: cutter, spiral, and four per flank. */
export const UNKNOWN_COUNT = 10;

const varyEaseOff = (
  easeOff: EaseOffDefinition,
  { center, crowning }: Unknowns,
  [u, v, lengthwise, profile]: readonly number[],
): EaseOffDefinition => {
  const along = 1 + crowning * lengthwise;
  const across = 1 + crowning * profile;
  return {
    lengthwise: easeOff.lengthwise * along,
    profile: easeOff.profile * across,
    // so that a hill stays one
    bias: easeOff.bias * Math.sqrt(along * across),
    centerToeHeel: easeOff.centerToeHeel + center * u,
    centerRootFace: easeOff.centerRootFace + center * v,
  };
};

/** The gear set with its unknowns elsewhere; `at` has UNKNOWN_COUNT numbers in [0, 1), 0.5 being the stated value. */
export const varyUnknowns = (
  definition: GearSetDefinition,
  unknowns: Unknowns,
  at: readonly number[],
): GearSetDefinition => {
  const either = at.map((x) => 2 * x - 1);
  const { cut } = definition;
  const cutterRadius = cut.cutterRadius * (1 + unknowns.cutterRadius * either[0]);
  return {
    ...definition,
    pinionSpiralAngle: definition.pinionSpiralAngle + unknowns.spiral * either[1],
    cut: { ...cut, cutterRadius },
    easeOff: {
      drive: varyEaseOff(definition.easeOff.drive, unknowns, either.slice(2, 6)),
      coast: varyEaseOff(definition.easeOff.coast, unknowns, either.slice(6, 10)),
    },
  };
};
