import type { EaseOffDefinition, GearSetDefinition } from '../sim/gearset/definition.ts';
import { type NodeOf, numberField } from './field.ts';

const easeOff = (flank: string, start: EaseOffDefinition): NodeOf<EaseOffDefinition> => ({
  kind: 'group',
  fields: {
    lengthwise: numberField(
      `${flank} lengthwise ease-off at half the face width`,
      'µm',
      [0, 500],
      start.lengthwise,
      1,
    ),
    profile: numberField(
      `${flank} profile ease-off at half the working height`,
      'µm',
      [0, 500],
      start.profile,
      1,
    ),
    bias: numberField(`${flank} bias`, 'µm', [-300, 300], start.bias, 1),
    centerToeHeel: numberField(
      `${flank} centre, toe −1 to heel +1`,
      'none',
      [-1, 1],
      start.centerToeHeel,
      0.05,
    ),
    centerRootFace: numberField(
      `${flank} centre, root −1 to face +1`,
      'none',
      [-1, 1],
      start.centerRootFace,
      0.05,
    ),
  },
});

/**
 * Every field of a gear set (docs/model.md §1). Ranges keep out slips of the keyboard, wide enough for any real set;
 * whether a set can be made is for the core to judge. The defaults together are a makeable set.
 */
export const GEAR_SET_FIELDS: NodeOf<GearSetDefinition> = {
  kind: 'group',
  fields: {
    pinionTeeth: numberField('Pinion teeth', 'none', [4, 30], 13, 1, { integer: true }),
    ringTeeth: numberField('Ring teeth', 'none', [15, 100], 44, 1, { integer: true }),
    ringOuterDiameter: numberField('Ring outer diameter', 'mm', [60, 1000], 208.5, 0.5),
    offset: numberField('Offset, minus for the other side', 'mm', [-150, 150], 31.5, 0.5, {
      leastMagnitude: 0.5,
    }),
    pinionSpiralAngle: numberField('Pinion spiral angle', 'degrees', [10, 70], 48.5, 0.5),
    faceWidth: numberField('Ring face width', 'mm', [5, 200], 31.5, 0.5),
    cut: {
      kind: 'variants',
      label: 'Cutting method',
      by: 'method',
      default: 'face-milled',
      cases: {
        'face-milled': {
          kind: 'group',
          fields: {
            cutterRadius: numberField('Cutter radius', 'mm', [15, 600], 93.5, 0.5),
            ringPitchAngle: numberField(
              'Ring pitch angle, left out when it follows from the cutter',
              'degrees',
              [45, 86],
              71,
              0.5,
              {
                optional: true,
              },
            ),
          },
        },
        'face-hobbed': {
          kind: 'group',
          fields: {
            cutterRadius: numberField('Cutter radius', 'mm', [15, 600], 86.5, 0.5),
            bladeGroups: numberField('Blade groups on the cutter head', 'none', [1, 60], 13, 1, {
              integer: true,
            }),
            ringPitchAngle: numberField('Ring pitch angle', 'degrees', [45, 86], 71, 0.5),
          },
        },
      },
    },
    tooth: {
      kind: 'group',
      fields: {
        pressureAngle: numberField('Mean pressure angle', 'degrees', [8, 35], 21, 0.5),
        depthFactor: numberField('Working depth in normal modules', 'none', [0.8, 3], 1.95, 0.05),
        ringAddendumFactor: numberField('Ring addendum in working depths', 'none', [0.02, 0.7], 0.17, 0.01),
        clearanceFactor: numberField('Clearance in working depths', 'none', [0, 0.5], 0.125, 0.005),
        depthTaper: numberField('Depth taper, 1 full to 0 uniform', 'none', [0, 1.5], 0.8, 0.05),
        slotFactor: numberField('Ring slot width in normal pitches', 'none', [0.3, 0.85], 0.58, 0.01),
      },
    },
    easeOff: {
      kind: 'group',
      fields: {
        drive: easeOff('Drive flank', {
          lengthwise: 40,
          profile: 28,
          bias: -9,
          centerToeHeel: -0.1,
          centerRootFace: 0.1,
        }),
        coast: easeOff('Coast flank', {
          lengthwise: 42,
          profile: 30,
          bias: 8,
          centerToeHeel: -0.05,
          centerRootFace: 0.15,
        }),
      },
    },
    backlash: numberField('Design backlash, square to the flank at the heel', 'mm', [0.01, 2], 0.16, 0.01),
  },
};
