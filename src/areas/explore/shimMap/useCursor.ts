import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import { ringAwayFromSides } from '../../../../sim/worker/assembly.ts';
import {
  type Combination,
  fitmentOf,
  nearestCombination,
  pointOf,
  type Steps,
  stepFrom,
} from '../../../shimMap/combinations.ts';
import type { Scales } from '../../../shimMap/scales.ts';
import { useSetup } from '../../../state/setup.ts';
import { showLiveSetup, useShownSetup } from '../../../state/shownSetup.ts';
import type { MapModel } from './useMapModel.ts';

/** Steps of a key with Shift. */
const LARGE = 5;

const ARROWS: Readonly<Record<string, Steps>> = {
  ArrowRight: { shim: 1, ring: 0 },
  ArrowLeft: { shim: -1, ring: 0 },
  ArrowUp: { shim: 0, ring: -1 },
  ArrowDown: { shim: 0, ring: 1 },
};

export interface Cursor {
  /** what is pointed at; null = nothing */
  readonly at: Combination | null;
  /** said aloud: it was put there by keys */
  readonly byKey: boolean;
  /** Sets the axle up as it is pointed at. */
  readonly go: () => void;
  readonly handlers: {
    readonly onPointerMove: (event: PointerEvent) => void;
    readonly onPointerLeave: (event: PointerEvent) => void;
    readonly onPointerUp: (event: PointerEvent) => void;
    readonly onKeyDown: (event: KeyboardEvent) => void;
  };
}

interface Pointed {
  readonly at: Combination;
  readonly byKey: boolean;
}

/** The pointer on the map, moved by mouse, finger or keys from one combination that can be had to the next. */
export function useCursor(model: MapModel, scales: Scales | null): Cursor {
  const { combinations, stock, drawn } = model;
  const [pointed, setPointed] = useState<Pointed | null>(null);

  // other shims to be had: what was pointed at is no longer among them
  const known = useRef(combinations);
  useEffect(() => {
    if (known.current === combinations) return;
    known.current = combinations;
    setPointed(null);
  }, [combinations]);
  const at = known.current === combinations ? (pointed?.at ?? null) : null;

  const goTo = (combination: Combination): void => {
    useSetup.getState().apply({ fitment: fitmentOf(combinations, combination) });
    showLiveSetup();
    setPointed(null);
  };

  const under = (event: PointerEvent): Combination | null => {
    if (scales === null) return null;
    const frame = event.currentTarget.getBoundingClientRect();
    const { box } = scales;
    const x = event.clientX - frame.left;
    const y = event.clientY - frame.top;
    const inside =
      x >= box.left - SLACK &&
      x <= box.left + box.width + SLACK &&
      y >= box.top - SLACK &&
      y <= box.top + box.height + SLACK;
    return inside ? nearestCombination(combinations, scales.toPlane({ x, y })) : null;
  };

  const onPointerMove = (event: PointerEvent): void => {
    if (event.pointerType === 'touch') return;
    const found = under(event);
    setPointed((last) => {
      if (found === null) return last?.byKey ? last : null;
      return last !== null && !last.byKey && isSame(last.at, found) ? last : { at: found, byKey: false };
    });
  };

  const onPointerUp = (event: PointerEvent): void => {
    const found = under(event);
    if (found === null || event.button !== 0) return;
    // a finger has seen nothing before it lands: the first tap points, the second goes
    if (event.pointerType === 'touch' && (at === null || !isSame(at, found))) {
      setPointed({ at: found, byKey: false });
    } else goTo(found);
  };

  const onPointerLeave = (event: PointerEvent): void => {
    if (event.pointerType === 'touch') return;
    setPointed((last) => (last?.byKey ? last : null));
  };

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (!handleKey(event.key, event.shiftKey)) return;
    event.preventDefault();
    event.stopPropagation();
  };

  const handleKey = (key: string, large: boolean): boolean => {
    const arrow = ARROWS[key];
    if (arrow !== undefined) {
      if (combinations.shims.length === 0 || combinations.rings.length === 0) return true;
      const by = large ? { shim: arrow.shim * LARGE, ring: arrow.ring * LARGE } : arrow;
      setPointed({ at: stepFrom(combinations, startOf(model, at), by), byKey: true });
      return true;
    }
    if (key === 'Enter' || key === ' ') {
      if (at !== null) goTo(at);
      return true;
    }
    if (key === 'Escape' && at !== null) {
      setPointed(null);
      return true;
    }
    if (key === 'Home') {
      setPointed({
        at: stepFrom(combinations, startOf(model, null), { shim: 0, ring: 0 }),
        byKey: true,
      });
      return true;
    }
    if (key === 'End' && drawn?.best) {
      const best = nearestCombination(combinations, pointOf(stock, drawn.best.combination));
      if (best !== null) setPointed({ at: best, byKey: true });
      return true;
    }
    return false;
  };

  return {
    at,
    byKey: pointed?.byKey ?? false,
    go: () => {
      if (at !== null) goTo(at);
    },
    handlers: { onPointerMove, onPointerLeave, onPointerUp, onKeyDown },
  };
}

/** px beside the plot that still count as its border */
const SLACK = 10;

const isSame = (a: Combination, b: Combination): boolean => a.shim === b.shim && a.ring === b.ring;

/** Where keys count from: the pointer, else where the axle is now. */
function startOf({ axle, combinations }: MapModel, at: Combination | null) {
  if (at !== null) {
    return {
      pinionShim: combinations.shims[at.shim].pinionShim,
      ringIn: combinations.rings[at.ring].ringIn,
    };
  }
  const { fitment } = useShownSetup.getState().setup;
  return { pinionShim: fitment.pinionShim, ringIn: -ringAwayFromSides(axle.sides, fitment) };
}
