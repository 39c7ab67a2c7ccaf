/** The shim map: every combination of pinion shim and side transfer at once. */
export const shimMap = {
  'shimMap.label': 'Shim map: pinion shim across, side transfer up',
  'shimMap.role': 'map',
  'shimMap.keys':
    'Arrow keys move a pointer by one real shim or lock position, with Shift by five. Enter goes there, Escape takes the pointer away, Home puts it where you are, End on the best in stock.',
  'shimMap.axis.pinion': 'Pinion shim, {unit}',
  'shimMap.axis.sides': 'Side transfer, {unit}',
  'shimMap.end.pinion': 'pinion {way, select, in {in} other {out}}',
  'shimMap.end.ring': 'ring {way, select, in {in} other {out}}',

  'shimMap.region.inside': 'Backlash within limits',
  'shimMap.region.inside.short': 'Within limits',
  'shimMap.region.below': 'Backlash too small',
  'shimMap.region.below.short': 'Too small',
  'shimMap.region.above': 'Backlash too large',
  'shimMap.region.above.short': 'Too large',
  'shimMap.region.binds': 'Teeth bind',
  'shimMap.region.binds.short': 'Bind',
  'shimMap.region.unknown': 'No contact',
  'shimMap.region.unknown.short': 'No contact',
  'shimMap.line.least': 'least',
  'shimMap.line.most': 'most',
  'shimMap.line.none': 'no play',

  'shimMap.scale': 'Marks off home, %',
  'shimMap.scale.band': '{from}–{to}',
  'shimMap.scale.over': 'over {from}',
  'shimMap.region.edge': '{flank, select, drive {drive} other {coast}} at the {edge}',
  'shimMap.legend': 'Reading the map',
  'shimMap.legend.edge': '{flank, select, drive {Drive mark} other {Coast mark}} at the {edge}',
  'shimMap.legend.limits':
    'Limits {least} to {most}, {reads, select, square {square to the flank} other {in the turning direction}}',
  'shimMap.legend.pale': 'pale: outside them',
  'shimMap.legend.binds': 'teeth bind',
  'shimMap.mark.present': 'you are here',
  'shimMap.mark.found': 'as found',
  'shimMap.mark.design': 'design',
  'shimMap.mark.best': 'best in stock',
  'shimMap.mark.stock': 'in stock',

  'shimMap.judged': 'How this is judged',
  'shimMap.judged.home':
    'Home is where the two marks lie in the design position of a true housing. Off home is the distance of their middles from there, in percent of the way from mid-flank to the edge; the drive flank counts twice.',
  'shimMap.judged.limits':
    'The least reading over a pitch is held against the least allowed, the mean against the most, read as this axle’s limits are.',
  'shimMap.judged.best':
    'Best in stock: of all real shims and lock positions on the map, backlash within limits, both marks clear of every edge, nearest to home.',
  'shimMap.judged.solved':
    'Every state of the map is solved on a coarser grid than the flank maps: near a border they decide. The axle maker’s manual and the paint decide in the end.',

  'shimMap.here': 'Where you are',
  'shimMap.there': 'Pointed at',
  'shimMap.there.best': 'Best in stock',
  'shimMap.row.pinion': 'Pinion shim',
  'shimMap.row.sides': 'Sides',
  'shimMap.row.backlash': 'Backlash',
  'shimMap.row.drive': 'Drive mark',
  'shimMap.row.coast': 'Coast mark',
  'shimMap.row.home': 'Off home',
  'shimMap.pinion.at': '{thickness}, pinion {amount} {way, select, in {in} other {out}}',
  'shimMap.pinion.design': '{thickness}, pinion at design',
  'shimMap.sides.at': '{ring} and {opposite}, ring {amount} {way, select, in {in} other {out}}',
  'shimMap.sides.design': '{ring} and {opposite}, ring at design',
  'shimMap.backlash.inside': '{amount}, within limits',
  'shimMap.backlash.below': '{amount}, too small by {beyond}',
  'shimMap.backlash.above': '{amount}, too large by {beyond}',
  'shimMap.backlash.binds': 'the teeth bind',
  'shimMap.backlash.unknown': 'nothing to measure from',
  'shimMap.flank.at': '{along}, {up}',
  'shimMap.flank.edges': '{along}, {up}; edge contact: {edges}',
  'shimMap.flank.none': 'no mark',
  'shimMap.home.percent': '{percent} %',
  'shimMap.home.none': 'a flank without a mark',
  'shimMap.waiting': 'not worked out yet',
  'shimMap.outside': 'You are beyond the map’s edge.',

  'shimMap.route': 'The way there',
  'shimMap.route.none': 'Point at a place, or press an arrow key on the map.',
  'shimMap.route.already': 'You are there.',
  'shimMap.route.pinion':
    'Pinion shim {amount} {change, select, thicker {thicker} other {thinner}}, pinion {way, select, in {in} other {out}}.',
  'shimMap.route.shims':
    '{amount} moved to the {way, select, in {ring side, ring in} other {opposite side, ring out}}.',
  'shimMap.route.sides':
    'Ring side {ring}, opposite side {opposite}: ring {way, select, in {in} out {out} other {stays}}.',
  'shimMap.route.side.stays': 'stays',
  'shimMap.cost.head-bearing': 'The pinion comes out and its head bearing is pulled.',
  'shimMap.cost.behind-cup': 'The pinion comes out and the head bearing’s cup is driven out.',
  'shimMap.cost.cartridge': 'The pinion cartridge comes off; its bearings stay together.',
  'shimMap.cost.sleeve': 'A new crush sleeve.',
  'shimMap.cost.spacer':
    'Spacer shims {amount} {change, select, thicker {thicker} other {thinner}} too, to keep the pinion preload.',
  'shimMap.cost.outboard-shims': 'Side shims change at the cups, no bearing is pulled.',
  'shimMap.cost.inboard-shims': 'The carrier bearings are pulled.',
  'shimMap.cost.adjuster': 'The adjusters turn, no bearing is pulled.',
  'shimMap.cost.mixed': 'A side shim changes and an adjuster turns, no bearing is pulled.',
  'shimMap.route.binds': 'With the pinion shim alone the teeth would bind: move the ring out first.',

  'shimMap.go': 'Go there',
  'shimMap.goBest': 'Go to best',
  'shimMap.best.none': 'No combination in stock on this map has its backlash within the limits.',
  'shimMap.best.edges':
    'Within the limits every combination in stock has edge contact; this one is nearest to home.',

  'shimMap.working': 'Working out the map, {percent} %',
  'shimMap.refining': 'Refining the map, {percent} %',
  'shimMap.stop': 'Stop',
  'shimMap.stopped':
    'Stopped. {rough, select, yes {Solved in part; filled in between.} other {Nothing is solved yet.}}',
  'shimMap.goOn': 'Go on',
  'shimMap.failed': 'The map could not be worked out. {reason}',
} as const;
