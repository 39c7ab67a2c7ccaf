import { beforeEach, describe, expect, it } from 'vitest';
import { AXLES } from '../../models/index.ts';
import { poseOfFitment } from '../../sim/worker/assembly.ts';
import type { MatchAnswer } from '../../sim/worker/diagnoseProtocol.ts';
import { showInExplore } from '../../src/areas/match/answer/showInExplore.ts';
import { blankLook } from '../../src/state/look.ts';
import { useSetup } from '../../src/state/setup.ts';

const answerAt = (offsetError: number, shaftAngleError: number): MatchAnswer => {
  const pose = { pinionIn: 0.1, ringAway: -0.05, offsetError, shaftAngleError };
  return { nearest: { pose, film: 0.012 }, next: null } as unknown as MatchAnswer;
};

const shownHousing = (offsetError: number, shaftAngleError: number) => {
  showInExplore(blankLook('borrin'), answerAt(offsetError, shaftAngleError), 'now');
  const { live } = useSetup.getState();
  return [live.offsetError, live.shaftAngleError];
};

describe('a state shown in Explore', () => {
  beforeEach(() => useSetup.getState().reset());

  it('calls a housing true that is off by less than the finest step, mm and degrees', () => {
    expect(shownHousing(0.0009, -0.0009)).toEqual([0, 0]);
  });

  it('keeps an error of the housing that can be set', () => {
    expect(shownHousing(-0.02346, 0.001)).toEqual([-0.0235, 0.001]);
  });

  it('stands where the mesh stands, the total at the sides kept', () => {
    showInExplore(blankLook('borrin'), answerAt(0, 0), 'now');
    const { fitment } = useSetup.getState().live;
    const { pinionIn, ringAway } = poseOfFitment(AXLES.borrin, fitment);
    expect(pinionIn).toBeCloseTo(0.1, 9);
    expect(ringAway).toBeCloseTo(-0.05, 9);
    expect(fitment.ringSide + fitment.oppositeSide).toBeCloseTo(12, 9);
  });
});
