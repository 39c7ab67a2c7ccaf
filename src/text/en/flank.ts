/** Flank maps and the description of a pattern in words. */
export const flank = {
  'flank.name.drive': 'Drive flank',
  'flank.name.coast': 'Coast flank',
  'flank.edge.toe': 'toe',
  'flank.edge.heel': 'heel',
  'flank.edge.face': 'face',
  'flank.edge.root': 'root',
} as const;
