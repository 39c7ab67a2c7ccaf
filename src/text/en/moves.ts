/** Move arrows, the former mark and its trail, the words of the backlash lock; loaded with them. */
export const moves = {
  'moves.arrows.name': 'Move arrows, {flank}',
  'moves.arrows.waiting': 'Working out where one step takes the mark…',
  'moves.arrows.failed': 'Where one step takes the mark could not be worked out.',
  'moves.arrows.noMark': 'No mark to move.',
  'moves.arrows.times':
    '{times, select, 1 {Arrows as long as the step.} other {Arrows drawn {times} times as long.}}',
  'moves.arrows.times.short': '×{times}',
  'moves.sign.pinion': 'P',
  'moves.sign.ring': 'R',
  'moves.sign.offset': 'B',
  'moves.sign.angle': 'A',
  'moves.step.pinion': 'Pinion shim {amount} thicker',
  'moves.step.pinionKept': 'Pinion shim {amount} thicker, backlash kept',
  'moves.step.ring': 'Ring in by {amount}',
  'moves.step.offset': 'Bores {amount} {way, select, more {further apart} other {closer together}}',
  'moves.step.angle': 'Pinion axis tipped {amount} up',
  'moves.line': '{step}: {move}',
  'moves.both': '{up}, {along}',
  'moves.share': '{percent} % toward {edge}',
  'moves.short': 'toward {edge} {percent} %',
  'moves.short.both': 'toward {up} {upPercent} %, {along} {alongPercent} %',
  'moves.stays': 'stays',

  'moves.former': 'Since before the last change: {drive} {coast}',
  'moves.former.moved': '{flank}: centre {move}.',
  'moves.former.appeared': '{flank}: no mark before.',
  'moves.former.gone': '{flank}: no mark any more.',
  'moves.former.none': '{flank}: no mark, as before.',

  'moves.lock.reading':
    'The ring follows the pinion, so that the dial keeps on reading {reading}. Preload stays.',
  'moves.lock.waiting': 'The ring follows the pinion, so that the dial reads the same. Preload stays.',
  'moves.lock.noReading': 'No contact to measure from: the sides stay.',
  'moves.lock.failed': 'The ring’s place could not be worked out: the sides stayed.',
  'moves.lock.ring': 'Ring moves {way, select, in {in} other {away}} by {amount}: {how}.',
  'moves.lock.ringStays': 'The ring stays.',
  'moves.lock.shims':
    '{amount} from {way, select, in {opposite side to ring side} other {ring side to opposite side}}',
  'moves.lock.notches':
    '{count, plural, one {# notch} other {# notches}} from {way, select, in {opposite side to ring side} other {ring side to opposite side}}',
  'moves.lock.unlike': 'ring side {ring}, opposite side {opposite}',
  'moves.lock.kept': 'Reading {reading}, as held.',
  'moves.lock.offStock':
    'Reading {reading}, {amount} {change, select, more {more} other {less}} than held for want of a finer {part, select, notch {notch} other {shim}}.',
  'moves.lock.offReach':
    'Reading {reading}, {amount} {change, select, more {more} other {less}} than held: the sides go no further.',
} as const;
