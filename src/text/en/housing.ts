/** The housing cut open. */
export const housing = {
  'housing.region': 'Housing cut open',
  'housing.view': 'Housing cut open, turnable view',
  'housing.view.keys':
    'Arrow keys turn the view, Shift with arrow keys moves it, plus and minus zoom, Home goes back. The list of parts says what each part does.',
  'housing.waiting': 'Building the housing…',
  'housing.lost': 'The 3D picture was interrupted. The list of parts goes on working.',
  'housing.again': 'Start the 3D picture again',
  'housing.flat.why': 'This browser cannot draw in three dimensions here: a flat section instead.',
  'housing.flat': 'Section through the axle',
  'housing.failed': 'How far moves can be drawn larger is not known: they are drawn true to size.',

  'housing.homes': 'Look at',
  'housing.home.whole': 'Whole',
  'housing.home.square': 'Square on',
  'housing.home.pinion': 'Pinion',
  'housing.home.carrier': 'Carrier',
  'housing.back': 'Back to this view',
  'housing.labels': 'Labels',
  'housing.larger': 'Show moves larger',
  'housing.larger.value': '{times}×',
  'housing.larger.text': 'Moves drawn {times} times as large',
  'housing.larger.true': 'true to size',
  'housing.larger.touch': 'teeth touch',
  'housing.larger.touches': 'At {times}× the teeth would touch: no further.',
  'housing.larger.most': 'Moves can be drawn up to {times}× as large here.',
  'housing.larger.design': 'Pinion and ring stand at the design position: nothing has moved.',
  'housing.larger.binds':
    'The teeth bind at this setting. Drawn where they first touch, {percent} % of the way.',
  'housing.larger.bindsAtDesign': 'The teeth bind even at the design position: the housing is not true.',

  'housing.legend.moves': 'Moves {times}×',
  'housing.legend.paint': 'paint true to size',
  'housing.legend.design': 'thin line: design position',

  'housing.parts': 'Parts',
  'housing.times': 'drawn {times}×',
  'housing.drawnTimes': 'Drawn {times} times as thick at the design position.',
  'housing.drawnTrue': 'Drawn as thick as it is at the design position.',
  'housing.fictional': 'A plain housing of our own, no real axle’s.',

  'housing.at.design': 'At the design position.',
  'housing.at.pinion': '{amount} {way, select, in {in} other {out}}',
  'housing.at.pinion.words':
    'Stands {amount} {way, select, in {further in, deeper,} other {further out}} from the design position.',
  'housing.at.ring.words':
    'Stands {amount} {way, select, in {further in, toward the pinion,} other {further out, away from the pinion,}} from the design position.',
  'housing.shim.same': 'As thick as at the design position.',
  'housing.shim.changed':
    '{amount} {change, select, thicker {thicker} other {thinner}} than at the design position.',
  'housing.adjuster.same': 'As at the design position.',
  'housing.adjuster.changed':
    '{notches} {change, select, thicker {further in} other {further out}} than at the design position, {amount} of travel.',

  'housing.push.pinion': 'thicker: pinion {way, select, in {in} other {out}}',
  'housing.push.ringSide': '{kind, select, adjuster {turned in} other {thicker}}: ring in',
  'housing.push.oppositeSide': '{kind, select, adjuster {turned in} other {thicker}}: ring out',

  'housing.part.pinion-shim': 'Pinion shim',
  'housing.part.ring-side': '{kind, select, adjuster {Ring-side adjuster} other {Ring-side shim}}',
  'housing.part.opposite-side': '{kind, select, adjuster {Opposite adjuster} other {Opposite shim}}',
  'housing.part.pinion': 'Pinion',
  'housing.part.ring': 'Ring',
  'housing.part.carrier': 'Carrier',
  'housing.part.head-bearing': 'Head bearing',
  'housing.part.tail-bearing': 'Tail bearing',
  'housing.part.spacer': '{kind, select, crush {Crush sleeve} other {Solid spacer}}',
  'housing.part.spacer-stack': 'Spacer shims',
  'housing.part.cartridge': 'Pinion cartridge',
  'housing.part.ring-bearing': 'Ring-side bearing',
  'housing.part.opposite-bearing': 'Opposite bearing',
  'housing.part.flange': 'Flange and nut',
  'housing.part.housing': 'Housing',

  'housing.does.pinion-shim.head-bearing':
    'Lies between the pinion’s head and the cone of the head bearing. The bearing stays in the housing: a thicker shim holds the head further off it, so the pinion goes in, toward the ring’s axis.',
  'housing.does.pinion-shim.behind-cup':
    'Lies behind the cup of the head bearing. A thicker shim pushes cup, bearing and pinion in, toward the ring’s axis.',
  'housing.does.pinion-shim.cartridge':
    'Lies under the flange of the pinion cartridge. A thicker shim holds cartridge, bearings and pinion off the housing, so the pinion goes out, away from the ring’s axis.',
  'housing.does.side.outboard-shims':
    'Lies between the bearing’s cup and the housing. A thicker one pushes bearing, carrier and ring {way, select, in {in, toward the pinion: less backlash} other {out, away from the pinion: more backlash}}. On one side alone half of the change moves the ring, the rest squeezes the bearings.',
  'housing.does.side.inboard-shims':
    'Lies between the carrier and the bearing’s cone; the bearing must come off to change it. A thicker one pushes carrier and ring {way, select, in {in, toward the pinion: less backlash} other {out, away from the pinion: more backlash}}. On one side alone half of the change moves the ring, the rest squeezes the bearings.',
  'housing.does.side.adjuster':
    'Is screwed into the housing against the bearing’s cup. Turned in, it pushes bearing, carrier and ring {way, select, in {in, toward the pinion: less backlash} other {out, away from the pinion: more backlash}}. On one side alone half of the travel moves the ring, the rest squeezes the bearings.',
  'housing.does.pinion': 'Turns in the head and the tail bearing; the pinion shim sets how deep it stands.',
  'housing.does.ring':
    'Is bolted to the carrier. The two sides set how near it stands to the pinion. The colour on its teeth is the marking compound, true to size.',
  'housing.does.carrier':
    'Carries the ring between its two bearings. {squeeze, select, more {Both sides together squeeze the bearings by {amount} more than at the design position.} less {Both sides together squeeze the bearings by {amount} less than at the design position.} other {Both sides together squeeze the bearings as at the design position.}}',
  'housing.does.head-bearing':
    'Tapered roller bearing next to the pinion’s head: it holds the pinion against the push of the mesh. {moves, select, yes {It moves with the pinion.} other {It stays where it is in the housing when the pinion shim is changed.}}',
  'housing.does.tail-bearing':
    'Tapered roller bearing at the flange’s end, opposed to the head bearing. {moves, select, yes {It moves with the cartridge.} other {Its cup stays where it is in the housing.}}',
  'housing.does.spacer.crush':
    'Yields when the pinion nut is drawn up, until the bearings have their preload. It yields once: every re-opening of the nut for depth costs a new one.',
  'housing.does.spacer.solid':
    'Keeps the two cones apart; the shims beside it set the preload of the pinion’s bearings.',
  'housing.does.spacer-stack':
    'Lie beside the solid spacer. A thicker stack keeps the cones further apart: less preload.',
  'housing.does.spacer-stack.follows':
    'Lie beside the solid spacer. A shim behind the cup spreads the bearings, so this stack has to grow by as much, or preload rises.',
  'housing.does.cartridge':
    'Holds both pinion bearings and is bolted to the housing: it lifts off with the pinion, and preload stays.',
  'housing.does.ring-bearing': 'Tapered roller bearing of the carrier, behind the ring’s back.',
  'housing.does.opposite-bearing': 'Tapered roller bearing of the carrier, on the side of the teeth.',
  'housing.does.flange': 'The nut draws flange, tail bearing and spacer together.',
  'housing.does.housing':
    'Cut open where the axes run: the carrier’s bores through the ring’s axis, the pinion’s bore through its own, which lies {offset} beside it.',
} as const;
