/** Work area Match. Loaded with it. */
export const match = {
  'match.title': 'Match',
  'match.paint.title': 'What the paint shows',
  'match.paint.surface': 'Paint the mark on the {flank}',
  'match.paint.keys':
    'Arrow keys move the brush, with Shift further. Space paints, or sets a corner of an outline; Enter closes the outline. Delete wipes. Escape leaves.',
  'match.paint.cursor':
    'Brush {along, plural, =0 {at mid-length} other {{along} % from the middle toward the heel}}, {up, plural, =0 {at mid-height} other {{up} % from the middle toward the face}}',
  'match.paint.none': 'Nothing painted yet',
  'match.paint.shape': '{middle}; covers {length} % of length, {height} % of height',
  'match.paint.tools': 'Paint with',
  'match.paint.tool.brush': 'Brush',
  'match.paint.tool.wipe': 'Wipe',
  'match.paint.tool.outline': 'Outline',
  'match.paint.tool.oval': 'Oval',
  'match.paint.size': 'Width of the brush',
  'match.paint.size.small': 'Narrow',
  'match.paint.size.middle': 'Medium',
  'match.paint.size.large': 'Wide',
  'match.paint.clear': 'Wipe this flank clean',
  'match.paint.clear.drive': 'Wipe the drive flank clean',
  'match.paint.clear.coast': 'Wipe the coast flank clean',
  'match.numbers.title': 'Mark by numbers',
  'match.numbers.toeHeel': 'Middle, toe to heel',
  'match.numbers.rootFace': 'Middle, root to face',
  'match.numbers.length': 'Length covered',
  'match.numbers.height': 'Height covered',
  'match.numbers.tilt': 'Heel end leans',
  'match.numbers.value.toeHeel':
    '{percent, plural, =0 {mid-length} other {{amount} % {end, select, toe {toward the toe} other {toward the heel}}}}',
  'match.numbers.value.rootFace':
    '{percent, plural, =0 {mid-height} other {{amount} % {end, select, root {toward the root} other {toward the face}}}}',
  'match.numbers.value.share': '{amount} %',
  'match.numbers.value.tilt':
    '{percent, plural, =0 {level} other {{amount} % {end, select, root {toward the root} other {toward the face}}}}',
  'match.look.clear': 'Start this look anew',
} as const;
