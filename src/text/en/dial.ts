/** The dial at the heel. Loaded with its picture. */
export const dial = {
  'dial.stage.region': 'Dial at the ring',
  'dial.stage.view': 'Ring, pinion and dial in three dimensions',
  'dial.stage.keys':
    'Arrow keys turn the view, Shift with arrow keys moves it, plus and minus zoom, Home goes back, space rocks the ring or stops.',
  'dial.stage.missing':
    'This browser cannot draw in three dimensions here. The dial and the readings beside it go on working.',
  'dial.stage.lost': 'The 3D picture was interrupted. The dial and the readings beside it go on working.',
  'dial.stage.home.bench': 'Whole set',
  'dial.stage.home.tip': 'Plunger',
  'dial.stage.caption': 'Pinion held, tooth {tooth, number} in mesh',

  'dial.face.region': 'Reading',
  'dial.face.label': 'Dial, one line is {division}, one turn is {turn}. Zero at drive contact.',
  'dial.face.limits': 'This axle’s limits are marked on the face: {least} to {most}.',
  'dial.reading': 'Dial',
  'dial.play.square': 'Free play at this place, square to the flank: {amount}.',
  'dial.play.tangential': 'Free play at this place, in the turning direction: {amount}.',
  'dial.play.binds': 'The teeth bind here: nothing to rock. Do not turn it by force.',
  'dial.play.none': 'No contact to measure from.',
  'dial.waiting': 'working it out…',

  'dial.hold.label': 'How the dial is held',
  'dial.hold.square': 'Square to flank',
  'dial.hold.tangential': 'Turning direction',
  'dial.hold.otherwise':
    'This axle’s limits are read {reads, select, square {square to the flank} other {in the turning direction}}. Held like this the dial reads {percent} % {change, select, more {more} other {less}}: do not hold it against those limits.',
  'dial.hold.right':
    'Held as this axle’s limits are read. A dial that is not held so at the heel reads something else.',

  'dial.rock.start': 'Rock',
  'dial.rock.stop': 'Stop',
  'dial.rock.hand': 'Ring, rocked by hand',
  'dial.rock.drive': 'drive contact',
  'dial.rock.coast': 'coast contact',
  'dial.rock.at':
    '{where, select, drive {On drive contact} coast {On coast contact} other {Between the flanks}}, dial {reading}',
  'dial.rock.key': 'Rock the ring or stop (J)',

  'dial.section.label':
    'The mesh at mid length, cut: a pinion tooth in its slot of the ring, true play. The lenses show where the flanks touch, {times, number} times as large.',
  'dial.section.times': 'lens × {times, number}',
  'dial.section.drive': 'drive',
  'dial.section.coast': 'coast',

  'dial.round.title': 'Round the ring',
  'dial.round.count': '{count, plural, one {# place} other {# places}}',
  'dial.round.fewer': 'One place fewer',
  'dial.round.more': 'One place more',
  'dial.round.choose': 'Place that is in mesh',
  'dial.round.place': 'Place {place, number}, tooth {tooth, number}: {reading}',
  'dial.round.mean': 'Ring as if it ran true: {reading}',
  'dial.round.mean.short': 'true',
  'dial.round.least': 'Least',
  'dial.round.greatest': 'Greatest',
  'dial.round.variation': 'Variation',
  'dial.round.at': 'place {place, number}',
  'dial.round.inside': 'Inside this axle’s limits at every place.',
  'dial.round.below': 'Place {place, number} is {amount} below the least allowed.',
  'dial.round.above': 'Place {place, number} is {amount} above the most allowed.',
  'dial.round.binds': 'The teeth bind at place {place, number}.',
  'dial.round.unknown': 'No contact to measure from at place {place, number}.',
  'dial.round.varies': 'Varies {amount} more than allowed ({most}).',
  'dial.round.steady': 'Allowed variation {most}.',
  'dial.round.failed': 'These readings could not be worked out. The last ones stay.',
  'dial.round.judged':
    '(Judged {reads, select, square {square to the flank} other {in the turning direction}}, as the limits are read.)',
  'dial.round.hides': 'One reading alone could have been any of {least} to {most}.',
  'dial.round.same':
    'The ring runs true: every place reads the same. Give it some runout to see what one reading hides.',

  'dial.runout.title': 'Ring runout',
  'dial.runout.full': 'Runout',
  'dial.runout.full.field': 'Ring runout, full reading at the back face',
  'dial.runout.at': 'Farthest out at',
  'dial.runout.at.field': 'Where the ring stands farthest from the pinion, degrees from tooth 1',
  'dial.runout.at.say': '{degrees, number, ::.}° from tooth 1',
  'dial.runout.at.tooth': 'Tooth {tooth, number} stands farthest from the pinion.',
  'dial.runout.none': 'No runout: the ring runs true.',
  'dial.runout.over': '{amount} over this axle’s limit of {most}.',
  'dial.runout.within': 'Limit of this axle: {most}, full reading at the ring’s back face.',
  'dial.runout.degrees': '°',

  'dial.paint.place':
    'The dashed outlines on the flank maps are the marks at place {place, number} (tooth {tooth, number}).',
  'dial.paint.mean': 'Choose a place: its own mark is outlined on the flank maps.',
  'dial.paint.back': 'Back to the mean',
  'dial.map.place': 'at place {place, number}, tooth {tooth, number}',

  'dial.caution': 'On the bench: fingers clear of the mesh, and rock the ring by its rim only.',
} as const;
