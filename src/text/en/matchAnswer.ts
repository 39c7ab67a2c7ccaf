/** Answers of work area Match. Loaded with it. */
export const matchAnswer = {
  'match.answer.title': 'What to fit next',
  'match.answer.nothing':
    'Paint what you see on either flank, and add a dial reading. The answer comes by itself.',
  'match.answer.working': 'Working it out…',
  'match.answer.failed': 'No answer to this look. {reason}',
  'match.answer.pinion':
    '{amount} {change, select, thicker {thicker} other {thinner}} {place}: pinion moves {way, select, in {in} other {out}}.',
  'match.answer.place.head-bearing': 'under the head bearing',
  'match.answer.place.behind-cup': 'behind the head bearing’s cup',
  'match.answer.place.cartridge': 'under the pinion cartridge',
  'match.answer.sides.transfer':
    '{amount} from the {from, select, ringSide {ring side to the opposite side} other {opposite side to the ring side}}: ring moves {way, select, in {in} other {out}}.',
  'match.answer.sides.each':
    'Ring side {ring}, opposite side {opposite}: ring moves {way, select, in {in} other {out}} {travel}.',
  'match.answer.side.shim': '{amount} {change, select, thicker {thicker} thinner {thinner} other {as it is}}',
  'match.answer.side.adjuster':
    '{count, plural, one {# notch} other {# notches}} {change, select, thicker {in} thinner {out} other {as it is}}',
  'match.answer.side.same': 'as it is',
  'match.answer.leave': 'Leave the shims as they are.',
  'match.answer.leave.why': 'No change that your stock allows would be worth the work.',
  'match.answer.refused': 'What was entered contradicts itself.',
  'match.answer.refused.look': 'No state of this axle shows all of it. Look once more at: {readings}.',
  'match.answer.housing': 'Shims alone cannot put this right.',
  'match.answer.housing.why':
    'The pattern points at the housing, a bent case or damaged gears (the housing explains it {factor} times better). Check them before chasing it with shims; what follows only makes the best of it.',
  'match.answer.reading.drive': 'the drive flank’s mark',
  'match.answer.reading.coast': 'the coast flank’s mark',
  'match.answer.reading.backlash': 'the dial readings',
  'match.answer.fit': 'Fit',
  'match.answer.fit.pinion': 'Pinion shim {thickness}',
  'match.answer.fit.ringSide': 'Ring side {thickness}',
  'match.answer.fit.oppositeSide': 'Opposite side {thickness}',
  'match.answer.fit.stack': '({stack} together)',
  'match.answer.fit.plus': '{first} + {second}',
  'match.answer.costs': 'Costs {costs}.',
  'match.answer.cost.pinion-pull': 'a pinion pull',
  'match.answer.cost.crush-sleeve': 'a new crush sleeve',
  'match.answer.cost.spacer-shim': 'a change of the spacer shim',
  'match.answer.cost.carrier-out': 'taking the carrier out',
  'match.answer.cost.bearing-pull-ring-side': 'a bearing pull on the ring side',
  'match.answer.cost.bearing-pull-opposite-side': 'a bearing pull on the opposite side',
  'match.answer.cost.adjusters': 'turning the adjusters with the caps eased',
  'match.answer.list.pair': '{first} and {second}',
  'match.answer.list.comma': '{first}, {second}',
  'match.answer.both': 'Both in one teardown.',
  'match.answer.spacer':
    'The spacer shim changes by {amount} {change, select, thicker {thicker} other {thinner}} along with it, or the pinion preload goes off.',
  'match.answer.exceeds.pinionIn':
    'How deep the pinion stands is known less closely than one shim step: expect to paint and check again.',
  'match.answer.exceeds.ringAway':
    'Where the ring stands is known less closely than one step at the sides: read the dial again.',
  'match.answer.lookFirst.drive':
    'Before anything is taken apart, paint the drive flank{how, select, first {} other { once more}}: it would make the choice surer.',
  'match.answer.lookFirst.coast':
    'Before anything is taken apart, paint the coast flank{how, select, first {} other { once more}}: it would make the choice surer.',
  'match.answer.lookFirst.backlash':
    'Before anything is taken apart, read the dial{how, select, first { at the heel} other { once more}}, best at four places: it would make the choice surer.',
  'match.answer.again': 'Keep this look, look again',
  'match.answer.fitted': 'Fitted: look again',
  'match.answer.next.all': 'all of it',
  'match.earlier.title': 'Looks before this one',
  'match.earlier.why': 'The same set seen again, or with other shims, says far more than one look.',
  'match.earlier.forget': 'Forget',
  'match.earlier.forget.which': 'the look with {shims}',
  'match.answer.notTogether': 'Not all can be had together: {wishes}.',
  'match.answer.outOfReach': 'Unlikely, whatever is fitted, from what is known so far: {wishes}.',
  'match.answer.map': 'Shims to choose from',
  'match.answer.map.label':
    'Shim map of this set. Fitted now: {now}. {change, select, yes {To fit: {next}.} other {No change advised.}}',
  'match.answer.map.shims': 'pinion shim {pinion}, ring side {ring}, opposite side {opposite}',
  'match.answer.map.now': 'fitted now',
  'match.answer.map.next': 'to fit',
  'match.answer.map.spread': 'where the gears may stand, 9 times in 10',
  'match.answer.map.scale': 'Marks off target, %',
  'match.answer.map.why':
    'Every combination of shims, solved for the set and the housing that explain the look best. The oval says how far the whole map may be off under your shims.',
  'match.answer.map.why.unknown':
    'Every combination of shims, solved for the set and the housing that explain the look best. The oval says how far the whole map may be off under your shims; with a set of unknown form much of that cancels, so the advice is surer than the oval looks.',
  'match.answer.map.working': 'Working the map out…',
  'match.answer.map.failed': 'The map could not be worked out. {reason}',
  'match.answer.wish.turnsFreely': 'teeth that never bind',
  'match.answer.wish.backlash': 'backlash inside the limits at every place',
  'match.answer.wish.noEdge': 'marks clear of every edge',
  'match.answer.wish.drive': 'the drive mark in place',
  'match.answer.wish.coast': 'the coast mark in place',
  'match.answer.cheaper': 'Less work, nearly as good: {what}',
  'match.answer.next.title': 'What you should see then',
  'match.answer.next.as': 'as a usual coat of {film} shows it, with one standard deviation either way',
  'match.answer.next.plates':
    'Both flanks with the new shims, in the one mesh that explains the look best. The table above is the mean over all meshes that may: it can differ by about a standard deviation.',
  'match.answer.next.now': 'now',
  'match.answer.next.then': 'then',
  'match.answer.next.dial': 'Dial',
  'match.answer.next.percent': '{percent} %',
  'match.answer.next.along': '{amount} ± {sd} % {end, select, toe {toe} other {heel}}',
  'match.answer.next.up': '{amount} ± {sd} % {end, select, root {root} other {face}}',
  'match.answer.next.none': 'no mark',
  'match.answer.next.unread': 'no reading',
  'match.answer.next.reading': '{mean} ±\u00a0{sd}',
  'match.answer.explore': 'See it in Explore',
  'match.answer.explore.now': 'See the present state',
  'match.answer.explore.why':
    'Explore shows it as shims of an axle that is exactly as drawn, so the thicknesses there are not yours.',
  'match.answer.nearest.shown': 'dashed: the nearest simulated mesh',
  'match.answer.why': 'Why',
  'match.answer.why.pinion':
    '{amount, select, none {at the design position} other {{amount} too far {way, select, in {in} other {out}}}}, give or take {sd}',
  'match.answer.why.ring':
    '{amount, select, none {at the design position} other {{amount} too far {way, select, in {in} other {out}}}}, give or take {sd}',
  'match.answer.why.row.pinionIn': 'Pinion',
  'match.answer.why.row.ringAway': 'Ring',
  'match.answer.why.row.offsetError': 'Offset of the bores',
  'match.answer.why.row.shaftAngleError': 'Shaft angle',
  'match.answer.why.row.film': 'Film of compound',
  'match.answer.why.plain': '{mean} ± {sd}',
  'match.answer.why.offset':
    '{way, select, more {{amount} further apart than drawn} less {{amount} closer together than drawn} other {as drawn}}, give or take {sd}',
  'match.answer.why.angle':
    '{way, select, more {{amount} tipped up} less {{amount} tipped down} other {square}}, give or take {sd}',
  'match.answer.why.housing.true': 'Shims can put it right: a sound housing explains what was seen.',
  'match.answer.why.housing.false': 'A fault of the housing explains what was seen {factor} times better.',
  'match.answer.why.housing.null': 'Whether the housing is sound cannot be told from this.',
  'match.answer.why.alternatives': 'Other explanations that are really different',
  'match.answer.why.alternative': '{percent} %: pinion {pinion}; ring {ring}{housing}',
  'match.answer.why.alternative.offset': '; offset of the bores at fault',
  'match.answer.why.alternative.shaft-angle': '; shaft angle at fault',
  'match.answer.why.reading':
    'What would narrow it most: {what} (takes away about {percent} % of the doubt).',
  'match.answer.why.read.drive':
    '{how, select, first {paint the drive flank too} other {paint the drive flank once more, thin and with care}}',
  'match.answer.why.read.coast':
    '{how, select, first {paint the coast flank too} other {paint the coast flank once more, thin and with care}}',
  'match.answer.why.read.backlash':
    '{how, select, first {read the dial at the heel} other {read the dial at more places round the ring}}',
  'match.answer.why.read.pinion-depth': 'measure the pinion depth with a gauge',
  'match.answer.why.read.housing-offset': 'measure the offset of the bores',
  'match.answer.why.read.shaft-angle': 'measure the angle between the bores',
  'match.answer.why.draws': 'From {draws} states of the mesh that agree with what was seen.',
  'match.answer.caution':
    'The axle maker’s manual and a qualified person decide. Keep fingers clear of the mesh; carrier and ring are heavy.',
  'match.used.keep': 'Keep this look as found before teardown',
  'match.used.kept': 'A pattern from before teardown is kept: the advice aims at it.',
  'match.used.none':
    'Used gears go back to the pattern found before teardown. Enter that first, then keep it here; without it the advice aims at the middle.',
  'match.used.forget': 'Forget it',
} as const;
