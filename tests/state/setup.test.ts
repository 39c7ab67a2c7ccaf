import { beforeEach, describe, expect, it } from 'vitest';
import { axleOf } from '../../src/state/axles.ts';
import {
  chooseAxle,
  goAsFound,
  goToDesign,
  stepFree,
  stepPinionShim,
  stepRing,
} from '../../src/state/moves.ts';
import { usePreferences } from '../../src/state/preferences.ts';
import { redoSetup, setupAsFound, undoSetup, useSetup } from '../../src/state/setup.ts';

const live = () => useSetup.getState().live;
const past = () => useSetup.temporal.getState().pastStates.length;

beforeEach(() => {
  useSetup.getState().reset();
  usePreferences.getState().reset();
});

describe('undo and redo', () => {
  it('makes one entry of a whole drag', () => {
    const { preview, commit } = useSetup.getState();
    for (let step = 1; step <= 20; step += 1) preview({ film: 0.012 + step * 0.0005 });
    expect(past()).toBe(0);
    commit();
    expect(past()).toBe(1);
    undoSetup();
    expect(live().film).toBe(0.012);
    redoSetup();
    expect(live().film).toBeCloseTo(0.022, 12);
  });

  it('makes no entry of a drag that ends where it began', () => {
    const { preview, commit } = useSetup.getState();
    preview({ film: 0.02 });
    preview({ film: 0.012 });
    commit();
    expect(past()).toBe(0);
    expect(useSetup.getState().live).toBe(useSetup.getState().committed);
  });

  it('goes back over a change of axle with the shims it had', () => {
    stepPinionShim(1);
    const changed = live();
    chooseAxle('cavel');
    expect(live()).toEqual(setupAsFound('cavel'));
    undoSetup();
    expect(live()).toEqual(changed);
    undoSetup();
    expect(live()).toEqual(setupAsFound('borrin'));
    undoSetup();
    expect(live()).toEqual(setupAsFound('borrin'));
  });

  it('drops what could be redone after a new change', () => {
    stepPinionShim(1);
    undoSetup();
    stepPinionShim(-1);
    redoSetup();
    expect(live().fitment.pinionShim).toBe(1.325);
    expect(useSetup.temporal.getState().futureStates).toEqual([]);
  });

  it('keeps 200 entries and no more', () => {
    for (let step = 0; step < 230; step += 1) stepFree('film', step % 2 === 0 ? 1 : -1);
    expect(past()).toBe(200);
  });

  it('reset forgets everything', () => {
    chooseAxle('elspar');
    stepPinionShim(1);
    useSetup.getState().reset();
    expect(live()).toEqual(setupAsFound('borrin'));
    expect(past()).toBe(0);
  });
});

describe('moves', () => {
  it('steps the pinion shim through the stock and stops at its end', () => {
    stepPinionShim(1);
    expect(live().fitment.pinionShim).toBe(1.375);
    let steps = 1;
    while (stepPinionShim(1)) steps += 1;
    expect(steps).toBe(14);
    expect(live().fitment.pinionShim).toBe(1.7);
    expect(past()).toBe(14);
  });

  it('steps freely in fine mode', () => {
    usePreferences.getState().change({ fine: true, fineStep: 0.001 });
    stepPinionShim(-1);
    expect(live().fitment.pinionShim).toBeCloseTo(1.349, 9);
  });

  it('moves shim from side to side and keeps the total', () => {
    stepRing(1);
    stepRing(1);
    const { ringSide, oppositeSide } = live().fitment;
    expect(ringSide).toBeCloseTo(5.94, 9);
    expect(ringSide + oppositeSide).toBeCloseTo(12, 9);
  });

  it('turns one adjuster in and the other out by the same notches', () => {
    chooseAxle('cavel');
    const found = live().fitment;
    stepRing(-1);
    expect(live().fitment).toEqual({
      ...found,
      ringSide: found.ringSide - 1,
      oppositeSide: found.oppositeSide + 1,
    });
  });

  it('does not let the total creep where the sides are unlike', () => {
    chooseAxle('dornet');
    const found = live().fitment;
    for (let step = 0; step < 5; step += 1) stepRing(1);
    for (let step = 0; step < 10; step += 1) stepRing(-1);
    for (let step = 0; step < 5; step += 1) stepRing(1);
    expect(live().fitment).toEqual(found);
  });

  it('goes to the design position in a true housing, and back to what was found', () => {
    chooseAxle('elspar');
    useSetup.getState().apply({ offsetError: 0.1, shaftAngleError: -0.05, film: 0.02 });
    goToDesign();
    const { axle } = axleOf('elspar');
    expect(live()).toMatchObject({ offsetError: 0, shaftAngleError: 0, film: 0.02 });
    expect(live().fitment.pinionShim).toBe(axle.pinionShim.design);
    goAsFound();
    expect(live()).toEqual(setupAsFound('elspar'));
  });
});
