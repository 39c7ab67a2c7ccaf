import { create } from 'zustand';
import type { GearSetDefinition } from '../../../../sim/gearset/definition.ts';
import type { CaliperReading } from '../../../../sim/worker/longProtocol.ts';
import { type AxleDraft, type Entry, withAssumed } from '../../../state/axleDraft.ts';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { longService } from '../../../state/longService.ts';
import { depthOf } from './depth.ts';

/** Assumptions that had to give way so that the set can be made, as fields of the draft. */
export const useCaliperStart = create<{ readonly altered: readonly string[] }>()(() => ({ altered: [] }));

const MEASURED = ['pinionTeeth', 'ringTeeth', 'ringOuterDiameter', 'faceWidth', 'offset'] as const;

/** ms without a change before the assumptions follow */
const REST_MS = 250;

/** What the caliper says so far; null while any of it is no number, or where nothing is to be assumed. */
function readingOf(draft: AxleDraft | null): CaliperReading | null {
  if (draft === null || draft.changes || draft.source !== null) return null;
  const read: Record<string, number> = {};
  for (const name of MEASURED) {
    const entry = draft.entries[`gearset.${name}`];
    if (typeof entry !== 'number') return null;
    read[name] = entry;
  }
  return { ...(read as unknown as Omit<CaliperReading, 'depth'>), depth: depthOf(draft) };
}

/** Cutter, spiral, tooth and ease-off as entries of the form. */
function entriesOf({ pinionSpiralAngle, cut, tooth, easeOff }: GearSetDefinition): Record<string, Entry> {
  const of = (path: string, values: object, choice = ''): readonly (readonly [string, Entry])[] =>
    Object.entries(values).map(([key, value]) => [`gearset.${path}.${key}${choice}`, value as Entry]);
  const { method, ...cutter } = cut;
  return Object.fromEntries([
    ['gearset.pinionSpiralAngle', pinionSpiralAngle],
    ['gearset.cut.method', method],
    ...of('cut', cutter, `@${method}`),
    ...of('tooth', tooth),
    ...of('easeOff.drive', easeOff.drive),
    ...of('easeOff.coast', easeOff.coast),
  ]);
}

/**
 * Keeps what a caliper does not tell at assumptions that go with what it tells, as long as the user has not set them.
 * Returns a function that ends it.
 */
export function followCaliper(): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asking: AbortController | null = null;
  let asked = '';

  const ask = async (reading: CaliperReading): Promise<void> => {
    const mine = new AbortController();
    asking = mine;
    const answer = await longService().caliper(reading, { signal: mine.signal });
    if (answer === null || mine.signal.aborted || !answer.ok) return;
    const start = answer.value;
    useAxleDrafts.getState().assume((draft) => withAssumed(draft, entriesOf(start.definition)));
    const given = openDraft(useAxleDrafts.getState())?.given ?? [];
    const altered = start.altered.map((path) => nameOf(path, start.definition));
    useCaliperStart.setState({ altered: altered.filter((name) => !given.includes(name)) });
  };
  const follow = (): void => {
    const reading = readingOf(openDraft(useAxleDrafts.getState()));
    const key = JSON.stringify(reading);
    if (key === asked) return;
    asked = key;
    asking?.abort();
    clearTimeout(timer);
    if (reading !== null) timer = setTimeout(ask, REST_MS, reading);
  };
  const unsubscribe = useAxleDrafts.subscribe(follow);
  useCaliperStart.setState({ altered: [] });
  follow();
  return () => {
    asking?.abort();
    clearTimeout(timer);
    unsubscribe();
  };
}

const nameOf = (path: string, { cut }: GearSetDefinition): string =>
  path.startsWith('cut.') ? `gearset.${path}@${cut.method}` : `gearset.${path}`;
