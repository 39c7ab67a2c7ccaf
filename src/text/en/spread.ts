/** What is robust of an own axle and what is not; loaded with it. */
export const spread = {
  'spread.name': 'What we do not know, {flank}',
  'spread.waiting': 'Trying sets that the axle may be as well…',
  'spread.failed': 'What the axle may be as well could not be worked out.',
  'spread.noMarks': 'Most of the sets show no mark here.',
  'spread.unmarked':
    '{count, plural, one {One of {made} sets shows no mark here.} other {# of {made} sets show no mark here.}}',
  'spread.middle': 'Middle in nine of ten sets: {along}, {up}.',
  'spread.band': '{from} to {to}',
  'spread.place': '{percent} % {edge}',
  'spread.line': '{step}: {ways}',
  'spread.way': 'toward {edge} in {percent} %',
  'spread.and': ' and ',
  'spread.robust': 'robust: {ways} of what the axle may be',
  'spread.open': 'open: {ways} only',
  'spread.noMark': 'no mark to move',
  'spread.progress': '{tried} of {total} sets tried.',
  'spread.done': '{total} sets tried.',
  'spread.stopped': 'Stopped after {tried} of {total} sets.',
  'spread.unmade':
    '{count, plural, one {One of them cannot be made and is left out.} other {# of them cannot be made and are left out.}}',
  'spread.varied': 'Varied: cutter, spiral, ease-off.',
  'spread.stop': 'Stop',
} as const;
