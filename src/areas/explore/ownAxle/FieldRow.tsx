import { memo, type ReactNode, useId, useState } from 'react';
import type { NumberField } from '../../../../models/field.ts';
import { Choice, Switch } from '../../../app/ui/controls.tsx';
import { draftField, type Entry, isTyped, withEntry } from '../../../state/axleDraft.ts';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { usePreferences } from '../../../state/preferences.ts';
import type { PlainTextKey } from '../../../text/catalogue.ts';
import { useText } from '../../../text/useText.ts';
import { useDraftMesh } from './draftMesh.ts';
import { entryOf, entryText, numberText, scaleOf } from './fieldText.ts';
import type { FormField } from './formLayout.ts';
import { fieldId } from './goToField.ts';
import styles from './ownAxle.module.css';
import { problemText } from './problemText.ts';

export interface FieldRowProps {
  readonly of: FormField;
  /** what stands by a field that the user has not set */
  readonly untouched: 'assumed' | 'example';
}

const enter = (name: string, entry: Entry): void =>
  useAxleDrafts.getState().change(name, (draft) => withEntry(draft, name, entry));

/** One field: its name, what it is, its value, and what is wrong with it. */
export const FieldRow = memo(function FieldRow({ of, untouched }: FieldRowProps) {
  const t = useText();
  const helpId = useId();
  const { name } = of;
  const { field } = draftField(name);
  const units = usePreferences((state) => state.units);
  const entry = useAxleDrafts((state) => openDraft(state)?.entries[name] ?? null);
  const given = useAxleDrafts((state) => openDraft(state)?.given.includes(name) ?? true);
  const problem = useDraftMesh((state) => state.judged.problems.get(name));
  const unmakeable = useDraftMesh(
    (state) =>
      state.failure !== null &&
      'field' in state.failure &&
      name.split('@')[0] === `gearset.${state.failure.field}`,
  );
  const entries = useAxleDrafts((state) => openDraft(state)?.entries);
  const message =
    problem === undefined || entries === undefined ? null : problemText(name, problem, entries, units, t);
  const label = t(of.label);
  const described = { id: fieldId(name), describedBy: helpId, wrong: message !== null };
  const isStart = !given && field.kind !== 'flag' && field.kind !== 'text';
  const wide = field.kind === 'text' || field.kind === 'choice';
  return (
    <div
      className={styles.row}
      data-wide={wide ? '' : undefined}
      data-wrong={message === null ? undefined : ''}
      data-cause={unmakeable ? '' : undefined}
    >
      <div className={styles.rowText}>
        <div className={styles.rowHead}>
          {field.kind === 'flag' ? (
            <Switch on={entry === true} onChange={(on) => enter(name, on)}>
              {label}
            </Switch>
          ) : field.kind === 'choice' ? (
            <span className={styles.label}>{label}</span>
          ) : (
            <label className={styles.label} htmlFor={described.id}>
              {label}
            </label>
          )}
          {isStart && (
            <span className={styles.start} data-start={untouched}>
              {t(untouched === 'example' ? 'ownAxle.edit.example' : 'ownAxle.edit.assumed')}
            </span>
          )}
        </div>
        <div id={helpId}>
          {message !== null && <p className={styles.wrong}>{message}</p>}
          {of.help !== null && <p className={styles.help}>{t(of.help)}</p>}
        </div>
      </div>
      {field.kind === 'number' && <NumberEntry {...described} name={name} field={field} entry={entry} />}
      {field.kind === 'choice' && (
        <ChoiceEntry
          label={label}
          choices={field.choices}
          value={String(entry)}
          onChoose={(to) => enter(name, to)}
          name={name}
        />
      )}
      {field.kind === 'text' && (
        <TextEntry
          {...described}
          name={name}
          long={field.longest > 100}
          value={typeof entry === 'string' ? entry : ''}
        />
      )}
    </div>
  );
});

interface EntryProps {
  readonly id: string;
  readonly describedBy: string;
  readonly wrong: boolean;
  readonly name: string;
}

function NumberEntry({
  id,
  describedBy,
  wrong,
  name,
  field,
  entry,
}: EntryProps & { readonly field: NumberField; readonly entry: Entry }) {
  const t = useText();
  const units = usePreferences((state) => state.units);
  /** the text while it is being typed: rewriting it under the fingers would move them */
  const [typing, setTyping] = useState<string | null>(null);
  const scale = scaleOf(field, units, t);
  const shown = entryText(entry, scale);
  // what was typed in the other unit keeps that unit
  const unit = isTyped(entry) && entry.unit !== units ? scaleOf(field, entry.unit, t).unit : scale.unit;
  const leave = () => {
    setTyping(null);
    useAxleDrafts.getState().rest();
  };
  return (
    <span className={styles.entry}>
      <input
        id={id}
        className="numbers"
        type="text"
        inputMode={field.integer ? 'numeric' : 'decimal'}
        autoComplete="off"
        spellCheck={false}
        value={typing ?? shown}
        placeholder={field.optional ? '–' : undefined}
        aria-invalid={wrong}
        aria-describedby={describedBy}
        onChange={(event) => {
          const typed = event.target.value;
          setTyping(typed);
          const next = entryOf(typed, field, units, t);
          // typed over with the same: nothing is set by it
          if (
            typeof next === 'number' &&
            typeof entry === 'number' &&
            numberText(next, scale) === shown &&
            typed === shown
          )
            return;
          enter(name, next);
        }}
        onBlur={leave}
        onKeyDown={(event) => {
          if (event.key === 'Enter') leave();
        }}
      />
      {unit !== '' && <span className={styles.unit}>{unit}</span>}
    </span>
  );
}

function TextEntry({
  id,
  describedBy,
  wrong,
  name,
  long,
  value,
}: EntryProps & { readonly long: boolean; readonly value: string }) {
  const shared = {
    id,
    value,
    'aria-invalid': wrong,
    'aria-describedby': describedBy,
    onChange: (event: { readonly target: { readonly value: string } }) => enter(name, event.target.value),
    onBlur: () => useAxleDrafts.getState().rest(),
  };
  return long ? (
    <textarea className={styles.text} rows={2} {...shared} />
  ) : (
    <input className={styles.text} type="text" autoComplete="off" {...shared} />
  );
}

interface ChoiceEntryProps {
  readonly label: string;
  readonly name: string;
  readonly choices: readonly string[];
  readonly value: string;
  readonly onChoose: (value: string) => void;
}

/** Texts of the choices are in the catalogue by their value in the file. */
function ChoiceEntry({ label, name, choices, value, onChoose }: ChoiceEntryProps): ReactNode {
  const t = useText();
  return (
    <div className={choices.length > 2 ? styles.manyChoices : styles.fewChoices}>
      <Choice
        label={label}
        name={`own-axle-${name}`}
        value={value}
        options={choices.map((choice) => ({
          value: choice,
          text: t(`ownAxle.c.${choice}` as PlainTextKey & `ownAxle.c.${string}`),
        }))}
        onChoose={onChoose}
      />
    </div>
  );
}
