import type { EaseOffDefinition, FlankName } from './definition.ts';
import { UnmakeableError } from './errors.ts';

const MM_PER_UM = 1e-3;

/** Ease-off e(u, v) in mm, removed from the pinion along its normal (docs/model.md §6). */
export const easeOffAt = (easeOff: EaseOffDefinition, u: number, v: number): number => {
  const du = u - easeOff.centerToeHeel;
  const dv = v - easeOff.centerRootFace;
  return (easeOff.lengthwise * du * du + easeOff.profile * dv * dv + 2 * easeOff.bias * du * dv) * MM_PER_UM;
};

/** @throws UnmakeableError when the ease-off is a saddle or a pit: the contact would sit at the borders. */
export const checkEaseOff = (flank: FlankName, easeOff: EaseOffDefinition): void => {
  const { lengthwise, profile, bias } = easeOff;
  for (const name of ['lengthwise', 'profile'] as const) {
    if (easeOff[name] > 0) continue;
    throw new UnmakeableError(
      'ease-off-not-a-hill',
      `easeOff.${flank}.${name}`,
      `${easeOff[name]} µm is not a hill`,
      'use more than 0 µm',
    );
  }
  if (lengthwise * profile > bias * bias) return;
  throw new UnmakeableError(
    'ease-off-not-a-hill',
    `easeOff.${flank}.bias`,
    `${bias} µm twists the flank into a saddle`,
    `lengthwise·profile must exceed bias²: use less than ${Math.sqrt(lengthwise * profile).toFixed(1)} µm either way`,
  );
};

/** Coefficients of a polynomial in flank coordinates: 1, u, v, uu, uv, vv. */
export const EASE_OFF_TERMS = 6;

/** e(u, v) written out: its EASE_OFF_TERMS coefficients, mm. */
export const easeOffCoefficients = ({
  lengthwise,
  profile,
  bias,
  centerToeHeel: u0,
  centerRootFace: v0,
}: EaseOffDefinition): readonly number[] =>
  [
    lengthwise * u0 * u0 + profile * v0 * v0 + 2 * bias * u0 * v0,
    -2 * (lengthwise * u0 + bias * v0),
    -2 * (profile * v0 + bias * u0),
    lengthwise,
    2 * bias,
    profile,
  ].map((micrometres) => micrometres * MM_PER_UM);
