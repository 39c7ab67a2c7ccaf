import { temporal } from 'zundo';
import { create } from 'zustand';
import type { Fitment } from '../../sim/assembly/hardware.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import { fittedNow } from '../../sim/worker/assembly.ts';
import { MOST_EARLIER } from '../../sim/worker/diagnoseProtocol.ts';
import { axleOf } from './axles.ts';
import type { PaintedMark } from './paintedMark.ts';

export const DIAL_MANNERS = ['square', 'tangential'] as const;
export type DialManner = (typeof DIAL_MANNERS)[number];
export const GEARS = ['new', 'used'] as const;
export type Gears = (typeof GEARS)[number];
export const SURENESSES = ['careful', 'rough'] as const;
export type Sureness = (typeof SURENESSES)[number];
/** whether the set is taken to be cut as the axle's data say */
export const CUTS = ['known', 'unknown'] as const;
export type Cut = (typeof CUTS)[number];

/** One look at an axle: what was fitted, what the paint showed, what the dial read. */
export interface Look {
  readonly axleId: string;
  /** what is in the axle while this is seen */
  readonly fitment: Fitment;
  /** null: not looked at */
  readonly drive: PaintedMark | null;
  readonly coast: PaintedMark | null;
  /** mm, one per place round the ring, as the dial read in `manner` */
  readonly readings: readonly number[];
  readonly manner: DialManner;
  readonly gears: Gears;
  readonly sureness: Sureness;
  readonly cut: Cut;
  /** a used set: what paint and dial showed before teardown, the pattern to get back to */
  readonly recorded: RecordedLook | null;
  /** the same set seen before this, oldest first; readings in the manner of this look */
  readonly earlier: readonly EarlierLook[];
}

/** What paint and dial showed at some time; readings in the manner of the look it belongs to. */
export type RecordedLook = Pick<Look, 'drive' | 'coast' | 'readings' | 'sureness'>;

/** What was seen before with the shims that were fitted then. */
export interface EarlierLook extends RecordedLook {
  readonly fitment: Fitment;
}

/** Nothing seen yet, the axle as found; the dial as this axle's limits are read. */
export function blankLook(axleId: string): Look {
  const { axle } = axleOf(axleId);
  return {
    axleId,
    fitment: fittedNow(axle),
    drive: null,
    coast: null,
    readings: [],
    manner: axle.limits.backlash.reads === 'square' ? 'square' : 'tangential',
    gears: 'new',
    sureness: 'careful',
    cut: 'known',
    recorded: null,
    earlier: [],
  };
}

/** More places than anybody reads. */
export const MOST_READINGS = 12;

export interface LookStore {
  /** by axle: another axle is another look, and the former one waits */
  readonly looks: Readonly<Record<string, Look>>;
  /** what is being painted right now, before the brush is lifted; drawn, but no entry for undo */
  readonly wet: Partial<Record<FlankName, PaintedMark>>;
  readonly change: (axleId: string, part: Partial<Omit<Look, 'axleId'>>) => void;
  /** A step on the way of a stroke. */
  readonly preview: (flank: FlankName, mark: PaintedMark) => void;
  /** The end of a stroke: the wet paint becomes part of the look. */
  readonly commit: (axleId: string) => void;
  /** Keeps the look as an earlier one and begins the next, with these shims in the axle. */
  readonly lookAgain: (axleId: string, fitment: Fitment) => void;
  /** Starts the look at this axle anew. */
  readonly clear: (axleId: string) => void;
  /** Forgets every look and the history. */
  readonly reset: () => void;
}

const UNDO_LIMIT = 100;

export const lookAt = (looks: LookStore['looks'], axleId: string): Look => looks[axleId] ?? blankLook(axleId);

export const useLook = create<LookStore>()(
  temporal(
    (set, get) => ({
      looks: {},
      wet: {},
      change: (axleId, part) =>
        set(({ looks }) => ({ looks: { ...looks, [axleId]: { ...lookAt(looks, axleId), ...part } } })),
      preview: (flank, mark) => set(({ wet }) => ({ wet: { ...wet, [flank]: mark } })),
      commit: (axleId) => {
        const { wet, change } = get();
        if (Object.keys(wet).length === 0) return;
        change(axleId, wet);
        set({ wet: {} });
      },
      lookAgain: (axleId, fitment) => {
        const look = lookAt(get().looks, axleId);
        const { drive, coast, readings, sureness } = look;
        const earlier = [...look.earlier, { drive, coast, readings, sureness, fitment: look.fitment }];
        get().change(axleId, {
          earlier: earlier.slice(-MOST_EARLIER),
          fitment,
          drive: null,
          coast: null,
          readings: [],
        });
        set({ wet: {} });
      },
      clear: (axleId) => set(({ looks }) => ({ looks: { ...looks, [axleId]: blankLook(axleId) }, wet: {} })),
      reset: () => {
        set({ looks: {}, wet: {} });
        useLook.temporal.getState().clear();
      },
    }),
    {
      limit: UNDO_LIMIT,
      partialize: ({ looks }) => ({ looks }),
      equality: (past, current) => past.looks === current.looks,
    },
  ),
);
