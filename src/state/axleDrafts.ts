import { create } from 'zustand';
import { type DeviceStorage, deviceStorage } from '../storage/device.ts';
import { loadRecord, type RecordKind, saveRecord } from '../storage/record.ts';
import { type AxleDraft, DRAFT_FIELDS, defaultEntries, type Entry } from './axleDraft.ts';
import { rested } from './rested.ts';

/** One step that can be taken back. */
interface Step {
  readonly draft: AxleDraft;
  /** what was changed; steps of one field in a row are one */
  readonly what: string;
}

export interface AxleDraftsStore {
  /** unfinished axles, newest first; kept on the device until they are saved or thrown away */
  readonly drafts: readonly AxleDraft[];
  /** key of the one in the editor */
  readonly open: string | null;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** Opens a draft: the unfinished one of its key where there is one. */
  readonly begin: (draft: AxleDraft) => void;
  /** Changes the open draft; `what` names the field or the handle. */
  readonly change: (what: string, next: (draft: AxleDraft) => AxleDraft) => void;
  /** Fills in what follows from what the user has set; no step of its own. */
  readonly assume: (next: (draft: AxleDraft) => AxleDraft) => void;
  /** Ends the step that is under way: the next change of the same thing is a step of its own. */
  readonly rest: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly close: () => void;
  /** Returns what puts it back. */
  readonly discard: (key: string) => () => void;
  readonly reset: () => void;
}

const MOST_STEPS = 200;

export const AXLE_DRAFTS_RECORD: RecordKind<readonly AxleDraft[]> = {
  key: 'meshwitness.axle-drafts',
  version: 1,
  read: (content) => (Array.isArray(content) && content.every(isDraft) ? content.map(completed) : undefined),
};

const NONE = { drafts: [], open: null, past: [], future: [] } as const;

const startDrafts = (storage: DeviceStorage): readonly AxleDraft[] => {
  const loaded = loadRecord(storage, AXLE_DRAFTS_RECORD);
  return loaded.found === 'value' ? loaded.value : [];
};

export const useAxleDrafts = create<AxleDraftsStore>()((set, get) => {
  const put = (draft: AxleDraft, part: Partial<AxleDraftsStore>) =>
    set({ ...part, drafts: get().drafts.map((other) => (other.key === draft.key ? draft : other)) });
  const travel = (from: 'past' | 'future', to: 'past' | 'future') => {
    const draft = openDraft(get());
    const step = get()[from].at(-1);
    if (draft === null || step === undefined) return;
    put(step.draft, {
      [from]: get()[from].slice(0, -1),
      [to]: [...get()[to], { draft, what: `${step.what} travelled` }],
    });
  };
  return {
    ...NONE,
    drafts: startDrafts(deviceStorage),
    begin: (draft) => {
      const { drafts } = get();
      const known = drafts.some(({ key }) => key === draft.key);
      set({ drafts: known ? drafts : [draft, ...drafts], open: draft.key, past: [], future: [] });
    },
    change: (what, next) => {
      const draft = openDraft(get());
      if (draft === null) return;
      const changed = next(draft);
      if (changed === draft) return;
      const { past } = get();
      const goesOn = past.at(-1)?.what === what;
      const steps = goesOn ? past : [...past, { draft, what }].slice(-MOST_STEPS);
      put(changed, { past: steps, future: [] });
    },
    assume: (next) => {
      const draft = openDraft(get());
      if (draft !== null) put(next(draft), {});
    },
    rest: () => {
      const last = get().past.at(-1);
      if (last === undefined || last.what.endsWith(' done')) return;
      set({ past: [...get().past.slice(0, -1), { ...last, what: `${last.what} done` }] });
    },
    undo: () => travel('past', 'future'),
    redo: () => travel('future', 'past'),
    close: () => set({ open: null, past: [], future: [] }),
    discard: (key) => {
      const { drafts, open } = get();
      const place = drafts.findIndex((draft) => draft.key === key);
      if (place === -1) return () => {};
      const gone = drafts[place];
      set({ drafts: drafts.toSpliced(place, 1), open: open === key ? null : open });
      return () => {
        const now = get().drafts.filter((draft) => draft.key !== key);
        set({ drafts: now.toSpliced(place, 0, gone) });
      };
    },
    reset: () => set(NONE),
  };
});

export const openDraft = ({ drafts, open }: Pick<AxleDraftsStore, 'drafts' | 'open'>): AxleDraft | null =>
  drafts.find(({ key }) => key === open) ?? null;

const REST_MS = 400;

/** Keeps the drafts on the device as they change; what is typed last is written when the page goes. */
export function keepDrafts(
  storage: DeviceStorage = deviceStorage,
  target: Pick<Window, 'addEventListener'> = window,
): void {
  const keeping = rested<readonly AxleDraft[]>(
    (drafts) => {
      if (drafts.length === 0) storage.remove(AXLE_DRAFTS_RECORD.key);
      else saveRecord(storage, AXLE_DRAFTS_RECORD, drafts);
    },
    REST_MS,
    { now: () => performance.now(), later: (callback, ms) => setTimeout(callback, ms) },
  );
  useAxleDrafts.subscribe((state, before) => {
    if (state.drafts !== before.drafts) keeping.put(state.drafts);
  });
  target.addEventListener('pagehide', keeping.flush);
}

function isDraft(value: unknown): value is AxleDraft {
  if (typeof value !== 'object' || value === null) return false;
  const { key, changes, source, entries, given } = value as Record<keyof AxleDraft, unknown>;
  return (
    typeof key === 'string' &&
    typeof changes === 'boolean' &&
    (source === null || typeof source === 'string') &&
    typeof entries === 'object' &&
    entries !== null &&
    Object.values(entries).every(isEntry) &&
    Array.isArray(given) &&
    given.every((name) => typeof name === 'string')
  );
}

function isEntry(value: unknown): value is Entry {
  if (value === null || ['number', 'string', 'boolean'].includes(typeof value)) return true;
  if (typeof value !== 'object') return false;
  const { typed, unit } = value as { typed?: unknown; unit?: unknown };
  return typeof typed === 'string' && (unit === 'mm' || unit === 'in');
}

/** Fields that a later form added hold their defaults; those it dropped go. */
function completed(draft: AxleDraft): AxleDraft {
  const names = new Set(DRAFT_FIELDS.map(({ name }) => name));
  const known = Object.entries(draft.entries).filter(([name]) => names.has(name));
  return {
    ...draft,
    entries: { ...defaultEntries(), ...Object.fromEntries(known) },
    given: draft.given.filter((name) => names.has(name)),
  };
}
