import { AXLE_FIELDS } from '../../../../models/axleFields.ts';
import { readAxleFile, writeAxleFile } from '../../../../models/axleFile.ts';
import type { AxleFile } from '../../../../models/axleFileForm.ts';
import type { Problem } from '../../../../models/problem.ts';
import { type KnownAxle, knowOwnAxle } from '../../../state/axles.ts';
import { saveToBench } from '../../../state/ownAxleBench.ts';
import { newAxleKey, presentForm } from '../../../state/ownAxles.ts';
import type { Translate } from '../../../text/translate.ts';

export type Imported =
  | { readonly kind: 'imported' | 'same'; readonly axle: KnownAxle }
  /** another form of it is here: both are kept */
  | { readonly kind: 'copy'; readonly axle: KnownAxle; readonly here: KnownAxle }
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] };

/** Takes an axle out of the text of a file. Nothing that is here is overwritten. */
export function importAxle(text: string, t: Translate): Imported {
  const read = readAxleFile(text);
  if (!read.ok) return { kind: 'refused', problems: read.problems };
  const here = presentForm(read.value.key);
  if (here === null) return { kind: 'imported', axle: saveToBench(read.value) };
  if (here.id === knowOwnAxle(read.value).id) return { kind: 'same', axle: here };
  const name = copyName(read.value.axle.name, t);
  const axle = saveToBench({ key: newAxleKey(), axle: { ...read.value.axle, name } });
  return { kind: 'copy', axle, here };
}

const { longest } = AXLE_FIELDS.fields.name as { readonly longest: number };

export function copyName(name: string, t: Translate): string {
  const copied = t('ownAxle.copy.name', { name });
  if (copied.length <= longest) return copied;
  return t('ownAxle.copy.name', { name: name.slice(0, name.length - (copied.length - longest)) });
}

/** A file of the axle, and a name for it that every system takes. */
export function fileOf(file: AxleFile): { readonly name: string; readonly content: Blob } {
  const slug = file.axle.name
    .normalize('NFKD')
    .replace(/[^a-zA-Z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase();
  return {
    name: `axle-${slug === '' ? file.key : slug}.json`,
    content: new Blob([writeAxleFile(file)], { type: 'application/json' }),
  };
}
