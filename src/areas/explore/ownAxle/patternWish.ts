import { create } from 'zustand';
import type { EaseOffDefinition, FlankName } from '../../../../sim/gearset/definition.ts';
import type { HomePatch, PatternRefusal, WishName } from '../../../../sim/worker/longProtocol.ts';
import { type AxleDraft, withEntry } from '../../../state/axleDraft.ts';
import { useAxleDrafts } from '../../../state/axleDrafts.ts';
import { longService } from '../../../state/longService.ts';
import { isMade, useDraftMesh } from './draftMesh.ts';

/** The mark wanted of one flank in the design position, and what came of it. */
export interface FlankWish {
  /** where the handles stand; null: on the mark as it is */
  readonly wanted: HomePatch | null;
  /** what of it is asked for: what was moved. The rest is kept near what it is. */
  readonly asked: readonly WishName[];
  /** the mark of the ease-off found last; null until the first answer */
  readonly found: HomePatch | null;
  readonly asking: boolean;
  /** why the wish is not met; the ease-off stays */
  readonly refusal: PatternRefusal | null;
  /** the ease-off that comes nearest to a refused wish */
  readonly nearest: EaseOffDefinition | null;
  /** the core's own words when it stopped */
  readonly stopped: string | null;
}

const NO_WISH: FlankWish = {
  wanted: null,
  asked: [],
  found: null,
  asking: false,
  refusal: null,
  nearest: null,
  stopped: null,
};

export const usePatternWish = create<Readonly<Record<FlankName, FlankWish>>>()(() => ({
  drive: NO_WISH,
  coast: NO_WISH,
}));

const set = (flank: FlankName, part: Partial<FlankWish>): void =>
  usePatternWish.setState((state) => ({ [flank]: { ...state[flank], ...part } }));

const under: Record<FlankName, { readonly signal: AbortController; again: boolean } | null> = {
  drive: null,
  coast: null,
};

/** Wants more of a mark; while one answer is under way only the newest wish waits behind it. */
export function wish(flank: FlankName, wanted: HomePatch, names: readonly WishName[]): void {
  const asked = [...new Set([...usePatternWish.getState()[flank].asked, ...names])];
  set(flank, { wanted, asked, refusal: null, nearest: null, stopped: null });
  const running = under[flank];
  if (running === null) void ask(flank);
  else running.again = true;
}

/** Lets the wish go: the handles go back to the mark as it is. */
export function dropWish(flank: FlankName): void {
  under[flank]?.signal.abort();
  under[flank] = null;
  set(flank, NO_WISH);
}

/** Takes the mark that comes nearest to the refused wish. */
export function takeNearest(flank: FlankName): void {
  const { nearest } = usePatternWish.getState()[flank];
  if (nearest === null) return;
  adopt(flank, nearest);
  set(flank, NO_WISH);
}

async function ask(flank: FlankName): Promise<void> {
  const { made } = useDraftMesh.getState();
  const { wanted, asked } = usePatternWish.getState()[flank];
  if (made === null || wanted === null) return;
  const mine = { signal: new AbortController(), again: false };
  under[flank] = mine;
  set(flank, { asking: true });
  const { gearset, film_mm } = made.axle;
  const answer = await longService().designPattern(
    'draft',
    gearset,
    { [flank]: Object.fromEntries(asked.map((name) => [name, wanted[name]])) },
    film_mm,
    {
      signal: mine.signal.signal,
    },
  );
  if (answer === null || under[flank] !== mine) return;
  under[flank] = null;
  if (mine.again) {
    void ask(flank);
    return;
  }
  set(flank, { asking: false });
  if (!answer.ok) {
    const { failure } = answer;
    set(flank, {
      stopped: 'message' in failure ? failure.message : 'allowed' in failure ? failure.allowed : failure.kind,
    });
    return;
  }
  const pattern = answer.value.patterns[flank];
  if (pattern === undefined) return;
  if (pattern.converged) {
    set(flank, { found: pattern.patch });
    adopt(flank, pattern.easeOff);
  } else set(flank, { refusal: pattern.refusal, nearest: pattern.easeOff });
}

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;

/** Hundredths of a µm and ten-thousandths of the flank: what a file and a form can hold. */
function adopt(flank: FlankName, easeOff: EaseOffDefinition): void {
  const at = `gearset.easeOff.${flank}`;
  const { lengthwise, profile, bias, centerToeHeel, centerRootFace } = easeOff;
  const entries: readonly (readonly [string, number])[] = [
    [`${at}.lengthwise`, rounded(lengthwise, 2)],
    [`${at}.profile`, rounded(profile, 2)],
    [`${at}.bias`, rounded(bias, 2)],
    [`${at}.centerToeHeel`, rounded(centerToeHeel, 4)],
    [`${at}.centerRootFace`, rounded(centerRootFace, 4)],
  ];
  const take = (draft: AxleDraft): AxleDraft =>
    entries.reduce((next, [name, value]) => withEntry(next, name, value), draft);
  useAxleDrafts.getState().change(`pattern ${flank}`, take);
}

const hands: Record<FlankName, boolean> = { drive: false, coast: false };

/** Is a handle of this flank in the hand? Then its wish stays, met or not. */
export function hold(flank: FlankName, held: boolean): void {
  hands[flank] = held;
  if (!held) settle(flank);
}

/** A wish that is met goes when the mark itself shows it. */
function settle(flank: FlankName): void {
  const { found, asking, refusal } = usePatternWish.getState()[flank];
  const met = found !== null && !asking && refusal === null;
  if (met && !hands[flank] && isMade(useDraftMesh.getState())) set(flank, NO_WISH);
}

/** Returns a function that ends it. */
export function followWishes(): () => void {
  const unsubscribe = useDraftMesh.subscribe((state, before) => {
    if (state.made === before.made && state.building === before.building) return;
    settle('drive');
    settle('coast');
  });
  return () => {
    unsubscribe();
    dropWish('drive');
    dropWish('coast');
  };
}
