import type { ShimStock, SideDevice, SideShims } from '../sim/assembly/hardware.ts';
import type { AxleDefinition } from './axle.ts';
import { choiceField, type NodeOf, numberField } from './field.ts';
import { GEAR_SET_FIELDS } from './gearSetFields.ts';

/** mm of marking compound left where the mark ends. */
export const FILM_FIELD = numberField('Film thickness', 'mm', [0.001, 0.1], 0.012, 0.001);

/** mm, film of the reference numbers (docs/model.md §7), used where no axle names its own. */
export const REFERENCE_FILM_MM = 0.00635;

/** How far a pose may stand from the design position; beyond it the interpolated pinion flank says nothing of use (docs/model.md §6). */
export const POSE_FIELDS = {
  pinionIn: numberField('Pinion in, minus for out', 'mm', [-1, 1], 0, 0.01),
  ringAway: numberField('Ring away from the pinion, minus for toward', 'mm', [-1, 1], 0, 0.01),
  offsetError: numberField('Offset error of the housing', 'mm', [-1, 1], 0, 0.01),
  shaftAngleError: numberField('Shaft angle error of the housing', 'degrees', [-0.5, 0.5], 0, 0.01),
} as const;

const stock = (part: string, start: ShimStock): NodeOf<ShimStock> => ({
  kind: 'group',
  fields: {
    thinnest: numberField(`Thinnest ${part} shim`, 'mm', [0.01, 20], start.thinnest, 0.01),
    thickest: numberField(`Thickest ${part} shim`, 'mm', [0.01, 30], start.thickest, 0.01),
    step: numberField(`Step of the ${part} shims`, 'mm', [0.001, 2], start.step, 0.005),
    mostStacked: numberField(`Most ${part} shims laid together`, 'none', [1, 12], start.mostStacked, 1, {
      integer: true,
    }),
  },
});

const sideShims = (
  side: string,
): Omit<NodeOf<SideShims>, 'fields'> & {
  readonly fields: Omit<NodeOf<SideShims>['fields'], 'kind'>;
} => ({
  kind: 'group',
  fields: {
    design: numberField(`${side} shim at the design position`, 'mm', [0, 40], 1.8, 0.01),
    fitted: numberField(`${side} shim fitted now`, 'mm', [0, 40], 1.8, 0.01),
    stock: stock(side.toLowerCase(), { thinnest: 0.9, thickest: 2.7, step: 0.04, mostStacked: 2 }),
  },
});

const side = (name: string): NodeOf<SideDevice> => ({
  kind: 'variants',
  label: `${name} adjustment`,
  by: 'kind',
  default: 'outboard-shims',
  cases: {
    'outboard-shims': sideShims(name),
    'inboard-shims': sideShims(name),
    adjuster: {
      kind: 'group',
      fields: {
        pitch: numberField(`${name} adjuster thread pitch`, 'mm', [0.2, 10], 1.5, 0.25),
        notchesPerTurn: numberField(`${name} adjuster notches per turn`, 'none', [2, 120], 22, 1, {
          integer: true,
        }),
        design: numberField(`${name} adjuster notches at the design position`, 'none', [0, 2000], 66, 1, {
          integer: true,
        }),
        fitted: numberField(`${name} adjuster notches now`, 'none', [0, 2000], 66, 1, { integer: true }),
        mostNotches: numberField(
          `${name} adjuster notches to the end of the thread`,
          'none',
          [1, 2000],
          132,
          1,
          {
            integer: true,
          },
        ),
      },
    },
  },
});

/** Every field of an axle file. A `design` or `fitted` may be any measured thickness, not only what the stock makes. */
export const AXLE_FIELDS: NodeOf<AxleDefinition> = {
  kind: 'group',
  fields: {
    name: { kind: 'text', label: 'Name', default: 'My axle', longest: 60 },
    fictional: { kind: 'flag', label: 'Invented for practice', default: false },
    description: { kind: 'text', label: 'Description', default: 'Own axle', longest: 600 },
    hand: choiceField('Hand of the set', { 'standard-cut': true, 'reverse-cut': true }, 'standard-cut'),
    gearset: GEAR_SET_FIELDS,
    film_mm: FILM_FIELD,
    pinionShim: {
      kind: 'group',
      fields: {
        place: choiceField(
          'Place of the pinion shim',
          { 'head-bearing': true, 'behind-cup': true, cartridge: true },
          'head-bearing',
        ),
        design: numberField('Pinion shim at the design position', 'mm', [0, 30], 1, 0.01),
        fitted: numberField('Pinion shim fitted now', 'mm', [0, 30], 1, 0.01),
        stock: stock('pinion', { thinnest: 0.6, thickest: 1.6, step: 0.025, mostStacked: 1 }),
      },
    },
    sides: { kind: 'group', fields: { ringSide: side('Ring side'), oppositeSide: side('Opposite side') } },
    spacer: {
      kind: 'variants',
      label: 'Between the pinion bearings',
      by: 'kind',
      default: 'crush-sleeve',
      cases: {
        'crush-sleeve': { kind: 'group', fields: {} },
        'solid-spacer': {
          kind: 'group',
          fields: {
            fitted: numberField('Spacer shim fitted now', 'mm', [0, 30], 0.8, 0.01),
            stock: stock('spacer', { thinnest: 0.2, thickest: 1, step: 0.02, mostStacked: 3 }),
          },
        },
      },
    },
    limits: {
      kind: 'group',
      fields: {
        backlash: {
          kind: 'group',
          fields: {
            min: numberField('Least backlash', 'mm', [0, 3], 0.12, 0.01),
            max: numberField('Most backlash', 'mm', [0, 3], 0.2, 0.01),
            reads: choiceField('How the dial is held', { square: true, tangential: true }, 'square'),
            variation: numberField('Most backlash variation round the ring', 'mm', [0, 2], 0.05, 0.01),
          },
        },
        ringRunout: {
          kind: 'group',
          fields: { max: numberField('Most ring runout', 'mm', [0, 2], 0.06, 0.01) },
        },
        pinionTorque: {
          kind: 'group',
          fields: {
            min_Nm: numberField('Least pinion rotating torque', 'N·m', [0, 50], 1.6, 0.1),
            max_Nm: numberField('Most pinion rotating torque', 'N·m', [0, 50], 2.8, 0.1),
            seal: choiceField('Seal while the torque is read', { out: true, in: true }, 'out'),
          },
        },
        carrierPreload: {
          kind: 'group',
          fields: {
            min_Nm: numberField('Least torque added by the carrier', 'N·m', [0, 50], 0.5, 0.1),
            max_Nm: numberField('Most torque added by the carrier', 'N·m', [0, 50], 1.2, 0.1),
          },
        },
      },
    },
  },
};
