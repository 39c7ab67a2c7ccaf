import { allowedWords, type Field } from '../../../../models/field.ts';
import { draftField, type Entries, isTyped, nameOfPath } from '../../../state/axleDraft.ts';
import type { Translate } from '../../../text/translate.ts';
import type { LengthUnit } from '../../../units/length.ts';
import { readNumber, sayNumber, scaleOf } from './fieldText.ts';
import { formField } from './formLayout.ts';
import type { FieldProblem } from './judgeDraft.ts';

/** Why a field cannot be used, in the units shown. */
export function problemText(
  name: string,
  problem: FieldProblem,
  entries: Entries,
  units: LengthUnit,
  t: Translate,
): string {
  const { field } = draftField(name);
  if (problem.kind === 'typed' && field.kind === 'number') {
    const { typed, unit } = problem.entry;
    const read = readNumber(typed, field, unit, t);
    return read.ok ? rangeText(field, units, t) : read.message;
  }
  if (problem.kind === 'other') return otherText(problem.allowed, entries, units, t);
  const entry = entries[name];
  if (entry === null || isTyped(entry)) return t('ownAxle.problem.needed');
  return rangeText(field, units, t);
}

function rangeText(field: Field, units: LengthUnit, t: Translate): string {
  switch (field.kind) {
    case 'number': {
      const scale = scaleOf(field, units, t);
      return t('ownAxle.number.range', {
        least: sayNumber(field.min, scale),
        most: sayNumber(field.max, scale),
      });
    }
    case 'text':
      return t('ownAxle.text.length', { most: field.longest });
    default:
      return allowedWords(field);
  }
}

/** "not more than limits.backlash.max (0.2)" with the other field's own name and unit. */
function otherText(allowed: string, entries: Entries, units: LengthUnit, t: Translate): string {
  const path = /^not more than (\S+) /.exec(allowed)?.[1];
  const other = path === undefined ? null : nameOfPath(path, entries);
  if (other === null) return t('ownAxle.problem.uniform');
  const { field } = draftField(other);
  const entry = entries[other];
  const value =
    field.kind === 'number' && typeof entry === 'number' ? sayNumber(entry, scaleOf(field, units, t)) : '';
  return t('ownAxle.problem.notAbove', { other: t(formField(other).label), value });
}

/** What the core says, with the fields by their names on the form: "use a smaller “Working depth”". */
export function withFieldNames(words: string, entries: Entries, t: Translate): string {
  return words.replace(/[a-zA-Z]+(?:\.[a-zA-Z]+)*/g, (path) => {
    const name = nameOfPath(`gearset.${path}`, entries);
    return name === null ? path : `“${t(formField(name).label)}”`;
  });
}
