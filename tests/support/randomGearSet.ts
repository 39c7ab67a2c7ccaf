import type { EaseOffDefinition, GearSetDefinition } from '../../sim/gearset/definition.ts';
import { UnmakeableError } from '../../sim/gearset/errors.ts';
import { buildGearMesh, type GearMesh } from '../../sim/gearset/gearMesh.ts';
import type { Random } from './random.ts';

const randomEaseOff = (random: Random): EaseOffDefinition => {
  const lengthwise = random.between(28, 50);
  const profile = random.between(20, 36);
  return {
    lengthwise,
    profile,
    bias: random.between(-0.4, 0.4) * Math.sqrt(lengthwise * profile),
    centerToeHeel: random.between(-0.15, 0.1),
    centerRootFace: random.between(-0.05, 0.2),
  };
};

/** A plausible gear set; whether it can be made is for the core to say. */
export const drawGearSet = (
  random: Random,
  method: GearSetDefinition['cut']['method'],
): GearSetDefinition => {
  const ringOuterDiameter = random.between(150, 420);
  const ringTeeth = random.whole(33, 47);
  const pinionTeeth = random.whole(Math.ceil(ringTeeth / 4.6), Math.floor(ringTeeth / 2.8));
  const shared = {
    pinionTeeth,
    ringTeeth,
    ringOuterDiameter,
    offset: ringOuterDiameter * random.between(0.08, 0.2),
    pinionSpiralAngle: random.between(42, 51),
    faceWidth: ringOuterDiameter * random.between(0.12, 0.16),
    easeOff: { drive: randomEaseOff(random), coast: randomEaseOff(random) },
    backlash: random.between(0.1, 0.25),
  };
  if (method === 'face-milled') {
    return {
      ...shared,
      cut: { method, cutterRadius: ringOuterDiameter * random.between(0.32, 0.55) },
      tooth: {
        pressureAngle: random.between(19, 23),
        depthFactor: random.between(1.7, 2),
        ringAddendumFactor: random.between(0.14, 0.25),
        clearanceFactor: 0.125,
        depthTaper: random.between(0.5, 1),
        slotFactor: random.between(0.52, 0.62),
      },
    };
  }
  return {
    ...shared,
    faceWidth: shared.faceWidth * 0.92,
    cut: {
      method,
      cutterRadius: ringOuterDiameter * random.between(0.3, 0.45),
      bladeGroups: random.pick([7, 11, 13, 17]),
      ringPitchAngle: random.between(66, 76),
    },
    tooth: {
      pressureAngle: random.between(18, 22),
      depthFactor: random.between(1.45, 1.75),
      ringAddendumFactor: random.between(0.14, 0.25),
      clearanceFactor: 0.125,
      depthTaper: 0,
      slotFactor: random.between(0.54, 0.62),
    },
  };
};

/** Draws until the core accepts one; counts the refusals by code on the way. */
export const drawMakeableMesh = (
  random: Random,
  method: GearSetDefinition['cut']['method'],
  refusals: Map<string, number> = new Map(),
): GearMesh => {
  for (let i = 0; i < 2000; i++) {
    try {
      return buildGearMesh(drawGearSet(random, method));
    } catch (error) {
      if (!(error instanceof UnmakeableError)) throw error;
      refusals.set(error.code, (refusals.get(error.code) ?? 0) + 1);
    }
  }
  throw new Error('no makeable gear set in 2000 draws');
};
