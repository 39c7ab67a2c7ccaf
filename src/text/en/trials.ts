/** Trials kept from work area Match for the record of a job. Loaded with it. */
export const trials = {
  'match.trial.keep': 'Keep as a trial',
  'match.trial.note': 'Note to the trial, if you like',
  'match.trial.note.long':
    'The note has {count} characters; allowed: at most {most}. Shorten it to keep the trial.',
  'match.trial.said.new': 'Kept as trial {number} of {axle}.',
  'match.trial.said.already': 'Kept already, as trial {number} of {axle}.',
  'match.trial.said.note': 'Kept already, as trial {number} of {axle}. Its note is changed.',
  'match.trial.said.fleeting': 'This browser stores nothing more: it is gone when the page is closed.',
  'match.trial.said.full':
    'Not kept: there are {count} trials on this device, and {most} is the most. Delete one that is not needed any more.',
  'match.trial.said.refused': 'Nothing is changed. {field}: {value}; allowed: {allowed}.',
  'match.trial.title': 'Trials kept',
  'match.trial.summary': 'Trials kept: {count}',
  'match.trial.name': 'Trial {number}',
  'match.trial.when': '{when, date, medium}, {when, time, short}',
  'match.trial.fitted': 'Fitted: {shims}.',
  'match.trial.dial': '{count, plural, =0 {No dial reading.} other {Dial: {readings}.}}',
  'match.trial.advised.change': 'Advised: {shims}.',
  'match.trial.advised.leave': 'Advised: leave the shims as they are.',
  'match.trial.advised.refused': 'No advice: what was entered contradicted itself.',
  'match.trial.open': 'Open',
  'match.trial.delete': 'Delete',
  'match.trial.restore': 'Bring back',
  'match.trial.which': 'trial {number}',
  'match.trial.deleted': 'Deleted',
  'match.trial.deleted.why': 'The last {most} deleted trials of this device can be brought back.',
  'match.trial.said.opened': 'Trial {number} is open. Undo brings back the look that was here.',
  'match.trial.said.deleted': 'Trial {number} is deleted.',
  'match.trial.said.restored': 'Trial {number} is back.',
  'match.trial.unread':
    '{count, plural, one {One trial} other {# trials}} on this device cannot be read and {count, plural, one {stays} other {stay}} there untouched. {field}: {value}; allowed: {allowed}.',
} as const;
