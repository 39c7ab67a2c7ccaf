/** The 3D stage. */
export const stage = {
  'stage.region.label': 'Ring and pinion, turnable view',
} as const;
