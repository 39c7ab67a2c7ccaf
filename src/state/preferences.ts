import { create } from 'zustand';
import { deviceStorage } from '../storage/device.ts';
import { loadRecord, type RecordKind, saveRecord } from '../storage/record.ts';
import type { LengthUnit } from '../units/length.ts';

export const THEMES = ['workshop', 'projector'] as const;
export type Theme = (typeof THEMES)[number];

/** Marking compound as the user's own tin has it. The colour values are tokens of the drawing, see COMPOUND_COLOURS. */
export const COMPOUNDS = ['yellow', 'white', 'red', 'blue', 'green'] as const;
export type Compound = (typeof COMPOUNDS)[number];

/** sRGB of the compound as brushed on; what rubs through is src/theme/steel.ts. */
export const COMPOUND_COLOURS: Readonly<Record<Compound, string>> = {
  yellow: '#e3b62c',
  white: '#e6e3da',
  red: '#b5432c',
  blue: '#2f66b5',
  green: '#4f8f3a',
};

export const DETAIL_LEVELS = ['auto', 'full', 'reduced'] as const;
export type DetailLevel = (typeof DETAIL_LEVELS)[number];

export const LENGTH_UNITS = ['mm', 'in'] as const satisfies readonly LengthUnit[];

/** mm per press in fine mode */
export const FINE_STEPS = [0.01, 0.001] as const;
export type FineStep = (typeof FINE_STEPS)[number];

/** What a person set up once on this device; never part of a link, except that a link may ask for units. */
export interface Preferences {
  /** null until chosen: the system's preference decides */
  readonly theme: Theme | null;
  /** null until asked */
  readonly compound: Compound | null;
  readonly detail: DetailLevel;
  readonly units: LengthUnit;
  /** free steps instead of the stock's */
  readonly fine: boolean;
  readonly fineStep: FineStep;
  /** keys without Ctrl or Cmd work too */
  readonly singleKeys: boolean;
  /** the mark before the last change and its way from there, on the flank maps */
  readonly traces: boolean;
}

const DEFAULT_PREFERENCES: Preferences = {
  theme: null,
  compound: null,
  detail: 'auto',
  units: 'mm',
  fine: false,
  fineStep: 0.01,
  singleKeys: true,
  traces: true,
};

export interface PreferencesStore extends Preferences {
  /** Changes and keeps. */
  readonly change: (part: Partial<Preferences>) => void;
  /** Shows lengths in `units` until the next choice, without keeping it: a link asked for it. */
  readonly showUnits: (units: LengthUnit) => void;
  readonly reset: () => void;
}

const oneOf = <T>(allowed: readonly T[], value: unknown, otherwise: T): T =>
  allowed.includes(value as T) ? (value as T) : otherwise;

/** Reads what it can; a part it does not know takes its default. */
function readPreferences(content: unknown): Preferences | undefined {
  if (typeof content !== 'object' || content === null) return undefined;
  const found = content as Record<keyof Preferences, unknown>;
  return {
    theme: oneOf<Theme | null>(THEMES, found.theme, DEFAULT_PREFERENCES.theme),
    compound: oneOf<Compound | null>(COMPOUNDS, found.compound, DEFAULT_PREFERENCES.compound),
    detail: oneOf(DETAIL_LEVELS, found.detail, DEFAULT_PREFERENCES.detail),
    units: oneOf(LENGTH_UNITS, found.units, DEFAULT_PREFERENCES.units),
    fine: found.fine === true,
    fineStep: oneOf(FINE_STEPS, found.fineStep, DEFAULT_PREFERENCES.fineStep),
    singleKeys: found.singleKeys !== false,
    traces: found.traces !== false,
  };
}

const PREFERENCES_RECORD: RecordKind<Preferences> = {
  key: 'meshwitness.preferences',
  version: 1,
  read: readPreferences,
};

/** True when a record was there and could not be read; the shell says so once. */
export const preferencesLoad = loadRecord(deviceStorage, PREFERENCES_RECORD);

export const usePreferences = create<PreferencesStore>()((set) => {
  let kept: Preferences = preferencesLoad.found === 'value' ? preferencesLoad.value : DEFAULT_PREFERENCES;
  const keep = (preferences: Preferences) => {
    kept = preferences;
    saveRecord(deviceStorage, PREFERENCES_RECORD, kept);
  };
  return {
    ...kept,
    change: (part) => {
      keep({ ...kept, ...part });
      set(part);
    },
    showUnits: (units) => set({ units }),
    reset: () => {
      keep(DEFAULT_PREFERENCES);
      set(DEFAULT_PREFERENCES);
    },
  };
});
