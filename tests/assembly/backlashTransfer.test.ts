import { describe, expect, it } from 'vitest';
import { AXLE_IDS, AXLES } from '../../models/index.ts';
import { transferForBacklash } from '../../sim/assembly/backlashTransfer.ts';
import { carrierPreloadChange, poseOfFitment } from '../../sim/assembly/fitment.ts';
import { fittedNow } from '../../sim/assembly/hardware.ts';
import { fineness, realSetting } from '../../sim/assembly/sides.ts';
import { keepBacklash } from '../../sim/contact/keepBacklash.ts';
import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { buildGearMesh } from '../../sim/gearset/gearMesh.ts';

describe.each(AXLE_IDS)('backlash transfer on %s', (id) => {
  const hardware = AXLES[id];
  const solver = new MeshSolver(buildGearMesh(hardware.gearset));
  const scratch = solver.createSolution();
  const present = fittedNow(hardware);

  it.each([-0.1, 0.1])('a pinion shim %d mm thicker: reading and preload stay', (thicker) => {
    solver.solve(poseOfFitment(hardware, present), 0.006, scratch);
    const wanted = scratch.backlash.normal;
    const pinionShim = present.pinionShim + thicker;
    const kept = keepBacklash(solver, poseOfFitment(hardware, { ...present, pinionShim }), wanted, scratch);
    expect(kept.converged).toBe(true);
    const transfer = transferForBacklash(hardware, present, pinionShim, kept.ringAway);

    expect(transfer.exact.pinionShim).toBe(pinionShim);
    expect(carrierPreloadChange(hardware, transfer.exact)).toBeCloseTo(
      carrierPreloadChange(hardware, present),
      12,
    );
    solver.solve(poseOfFitment(hardware, transfer.exact), 0.006, scratch);
    expect(Math.abs(scratch.backlash.normal - wanted)).toBeLessThan(0.002);

    // the pinion going in takes the ring away from it: push leaves the ring side
    const pinionWentIn =
      poseOfFitment(hardware, transfer.exact).pinionIn > poseOfFitment(hardware, present).pinionIn;
    expect(Math.sign(transfer.toRingSide)).toBe(pinionWentIn ? -1 : 1);
  });

  it('the real fitment is one the hardware can have, and says what it gives', () => {
    const transfer = transferForBacklash(hardware, present, present.pinionShim + 0.013, 0.0437);
    const { ringSide, oppositeSide } = hardware.sides;
    expect(realSetting(ringSide, transfer.real.ringSide)).toBeCloseTo(transfer.real.ringSide, 9);
    expect(realSetting(oppositeSide, transfer.real.oppositeSide)).toBeCloseTo(transfer.real.oppositeSide, 9);
    expect(transfer.realRingAway).toBe(poseOfFitment(hardware, transfer.real).ringAway);
    expect(transfer.realPreloadChange).toBeCloseTo(
      carrierPreloadChange(hardware, transfer.real) - carrierPreloadChange(hardware, present),
      12,
    );
    expect(Math.abs(transfer.realRingAway - 0.0437)).toBeLessThanOrEqual(
      Math.max(fineness(ringSide), fineness(oppositeSide)),
    );
  });
});
