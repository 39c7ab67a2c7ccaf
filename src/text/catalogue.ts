import type { GetICUArgs } from '@schummar/icu-type-parser';
import { app } from './en/app.ts';
import type { curves } from './en/curves.ts';
import type { dial } from './en/dial.ts';
import { explore } from './en/explore.ts';
import { flank } from './en/flank.ts';
import type { housing } from './en/housing.ts';
import type { match } from './en/match.ts';
import type { matchAnswer } from './en/matchAnswer.ts';
import type { moves } from './en/moves.ts';
import type { ownAxle } from './en/ownAxle.ts';
import type { shimMap } from './en/shimMap.ts';
import type { sideBySide } from './en/sideBySide.ts';
import type { spread } from './en/spread.ts';
import { stage } from './en/stage.ts';
import type { trials } from './en/trials.ts';

/**
 * Every string a person can read, in English, keyed `area.topic.detail`, in ICU message format.
 * One file per area under en/; a missing key or argument is a type error at the place of use.
 */
export const ENGLISH = { ...app, ...explore, ...flank, ...stage } as const;

/** Strings of parts that are loaded when they are needed; each brings its own with `addTexts`. */
type Later = typeof curves &
  typeof dial &
  typeof housing &
  typeof match &
  typeof matchAnswer &
  typeof moves &
  typeof ownAxle &
  typeof shimMap &
  typeof sideBySide &
  typeof spread &
  typeof trials;

export type Catalogue = typeof ENGLISH & Later;
export type TextKey = keyof Catalogue;

interface ArgumentTypes {
  ICUArgument: string | number;
  ICUNumberArgument: number;
  ICUDateArgument: Date;
}

export type TextArguments<K extends TextKey> = GetICUArgs<Catalogue[K], ArgumentTypes>;

/** Keys whose message takes no arguments: usable where a key is passed along. */
export type PlainTextKey = { [K in TextKey]: keyof TextArguments<K> extends never ? K : never }[TextKey];
