import type { GearSetDefinition } from '../../sim/gearset/definition.ts';

/** The smallest hill the core accepts: no crowning to speak of. */
export const withoutCrowning = (definition: GearSetDefinition): GearSetDefinition => {
  const flat = { lengthwise: 1e-9, profile: 1e-9, bias: 0, centerToeHeel: 0, centerRootFace: 0 };
  return { ...definition, easeOff: { drive: flat, coast: flat } };
};
