import type { GearSetDefinition } from './definition.ts';
import { UnmakeableError } from './errors.ts';

type Rule = {
  readonly low?: number;
  readonly above?: number;
  readonly high?: number;
  readonly integer?: boolean;
};

/** Bounds without which the equations have no meaning; the tighter, friendlier ranges live in models/. */
const RULES: ReadonlyArray<readonly [string, Rule]> = [
  ['pinionTeeth', { low: 2, integer: true }],
  ['ringTeeth', { low: 3, integer: true }],
  ['ringOuterDiameter', { above: 0 }],
  ['offset', {}],
  ['pinionSpiralAngle', { above: 0, high: 85 }],
  ['faceWidth', { above: 0 }],
  ['cut.cutterRadius', { above: 0 }],
  ['tooth.pressureAngle', { above: 0, high: 45 }],
  ['tooth.depthFactor', { above: 0 }],
  ['tooth.ringAddendumFactor', { low: 0, high: 1 }],
  ['tooth.clearanceFactor', { low: 0, high: 1 }],
  ['tooth.depthTaper', { low: 0, high: 2 }],
  ['tooth.slotFactor', { above: 0, high: 1 }],
  ['backlash', { low: 0 }],
  ...(['drive', 'coast'] as const).flatMap((flank) =>
    (['lengthwise', 'profile', 'bias', 'centerToeHeel', 'centerRootFace'] as const).map(
      (name) => [`easeOff.${flank}.${name}`, {}] as const,
    ),
  ),
];

const valueAt = (definition: GearSetDefinition, path: string): unknown =>
  path
    .split('.')
    .reduce<unknown>((node, key) => (node as Record<string, unknown> | undefined)?.[key], definition);

const check = (definition: GearSetDefinition, path: string, rule: Rule): void => {
  const value = valueAt(definition, path);
  const number = typeof value === 'number' && Number.isFinite(value) ? value : Number.NaN;
  const fine =
    !Number.isNaN(number) &&
    (rule.low === undefined || number >= rule.low) &&
    (rule.above === undefined || number > rule.above) &&
    (rule.high === undefined || number <= rule.high) &&
    (!rule.integer || Number.isInteger(number));
  if (fine) return;
  const words = [
    rule.integer ? 'a whole number' : 'a number',
    rule.above === undefined ? '' : `above ${rule.above}`,
    rule.low === undefined ? '' : `of at least ${rule.low}`,
    rule.high === undefined ? '' : `up to ${rule.high}`,
  ].filter((word) => word !== '');
  throw new UnmakeableError('bad-value', path, String(value), `use ${words.join(' ')}`);
};

/** @throws UnmakeableError (`bad-value`) for a number the equations cannot take. */
export const checkDefinition = (definition: GearSetDefinition): void => {
  for (const [path, rule] of RULES) check(definition, path, rule);
  if (definition.cut.ringPitchAngle !== undefined || definition.cut.method === 'face-hobbed') {
    check(definition, 'cut.ringPitchAngle', { low: 45, high: 86 });
  }
  if (definition.cut.method === 'face-hobbed') {
    check(definition, 'cut.bladeGroups', { low: 1, integer: true });
    if (definition.tooth.depthTaper !== 0) {
      throw new UnmakeableError(
        'bad-value',
        'tooth.depthTaper',
        String(definition.tooth.depthTaper),
        'face-hobbed teeth have uniform depth: use 0',
      );
    }
  }
  if (definition.ringTeeth <= definition.pinionTeeth) {
    throw new UnmakeableError(
      'bad-value',
      'ringTeeth',
      String(definition.ringTeeth),
      `use more than pinionTeeth (${definition.pinionTeeth})`,
    );
  }
  if (definition.faceWidth >= 0.6 * definition.ringOuterDiameter) {
    throw new UnmakeableError(
      'bad-value',
      'faceWidth',
      `${definition.faceWidth} mm`,
      `use less than ${(0.6 * definition.ringOuterDiameter).toFixed(1)} mm for this ring`,
    );
  }
};
