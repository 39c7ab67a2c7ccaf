import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { MeshCore } from '../../sim/worker/core.ts';
import { poseWithRunout, runoutFrame } from '../../sim/worker/runout.ts';
import { axleOf } from '../../src/state/axles.ts';
import { type DialSource, followDial, placeShown, teethAt, useDial } from '../../src/state/dial.ts';
import { poseOfSetup, type ShownMesh, useMesh } from '../../src/state/mesh.ts';
import { setupAsFound } from '../../src/state/setup.ts';
import { useView } from '../../src/state/view.ts';
import { eventually } from '../support/eventually.ts';

const core = new MeshCore();

/** A solved mesh as the app would show it, the ring moved by `ringAway` mm. */
function meshOf(axleId: string, ringAway = 0): ShownMesh {
  const loaded = core.load(axleId, axleOf(axleId).axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const setup = setupAsFound(axleId);
  const pose = poseOfSetup(setup);
  const solved = core.solve(axleId, { ...pose, ringAway: pose.ringAway + ringAway }, setup.film);
  if (!solved.ok) throw new Error(JSON.stringify(solved.failure));
  return { axleId, loaded: loaded.value, result: solved.value };
}

function countedCore(): DialSource & { solves: number } {
  const counted = {
    solves: 0,
    load: async (...request: Parameters<MeshCore['load']>) => core.load(...request),
    solve: async (...request: Parameters<MeshCore['solve']>) => {
      counted.solves += 1;
      return core.solve(...request);
    },
  };
  return counted;
}

const round = () => useDial.getState().round;
const untilRound = (fits: () => boolean) => eventually(() => expect(fits()).toBe(true));

let end = () => {};

beforeEach(() => {
  useDial.getState().reset();
  useMesh.getState().reset();
  useView.getState().reset();
  useView.getState().showPicture('dial');
});
afterEach(() => {
  end();
  useView.getState().reset();
});

describe('places round the ring', () => {
  it('are different teeth as evenly apart as teeth allow, from tooth 1 on', () => {
    for (const ringTeeth of [38, 43, 47]) {
      for (let count = 3; count <= 12; count++) {
        const teeth = teethAt(count, ringTeeth);
        expect(teeth[0]).toBe(0);
        expect(new Set(teeth).size).toBe(count);
        teeth.forEach((tooth, i) => {
          const next = teeth[(i + 1) % count] + (i === count - 1 ? ringTeeth : 0);
          expect(Math.abs(next - tooth - ringTeeth / count)).toBeLessThanOrEqual(1);
        });
      }
    }
  });
});

describe('readings round the ring', () => {
  it.each(['borrin', 'cavel', 'dornet'])(
    'are solves of the tilted ring at each tooth: %s',
    async (axleId) => {
      const mesh = meshOf(axleId);
      useMesh.setState({ shown: mesh });
      useDial.getState().setCount(5);
      useDial.getState().setRunout({ full: 0.06, farthestAt: 140 });
      end = followDial(countedCore());
      await untilRound(() => round() !== null);
      const { gearset } = axleOf(axleId).axle;
      const frame = runoutFrame(gearset, mesh.loaded.geometry.meanPoint);
      const places = round()?.places ?? [];
      expect(places).toHaveLength(5);
      for (const { tooth, angle, result } of places) {
        expect(angle).toBeCloseTo((360 * tooth) / gearset.ringTeeth, 12);
        const tilt = { amplitude: 0.03, highAt: (-140 * Math.PI) / 180 };
        const pose = poseWithRunout(frame, mesh.result.pose, tilt, (-angle * Math.PI) / 180);
        const direct = core.solve(axleId, pose, mesh.result.film);
        expect(direct.ok && direct.value.backlash).toEqual(result.backlash);
        expect(direct.ok && direct.value.drive.toeHeel).toBe(result.drive.toeHeel);
      }
      // most backlash nearest to where the ring stands farthest out
      const far = places.reduce((a, b) =>
        (a.result.backlash.normal ?? 0) > (b.result.backlash.normal ?? 0) ? a : b,
      );
      expect(Math.abs(far.angle - 140)).toBeLessThanOrEqual(36.01);
      expect(far.away).toBeGreaterThan(0);
    },
  );

  it('are all the mesh itself when the ring runs true, and cost no solve', async () => {
    const mesh = meshOf('borrin');
    useMesh.setState({ shown: mesh });
    const source = countedCore();
    end = followDial(source);
    await untilRound(() => round() !== null);
    expect(source.solves).toBe(0);
    for (const place of round()?.places ?? []) expect(place.result).toBe(mesh.result);
  });

  it('wait until somebody looks at the dial', async () => {
    useView.getState().showPicture('gears');
    useMesh.setState({ shown: meshOf('borrin') });
    useDial.getState().setRunout({ full: 0.05 });
    const source = countedCore();
    end = followDial(source);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(source.solves).toBe(0);
    expect(round()).toBeNull();
    useView.getState().showPicture('dial');
    await untilRound(() => round()?.places.length === 6);
  });

  it('end at the newest mesh, runout and count, whatever came between', async () => {
    useMesh.setState({ shown: meshOf('borrin') });
    const source = countedCore();
    end = followDial(source);
    for (let i = 1; i <= 20; i++) useDial.getState().setRunout({ full: i * 0.005 });
    const last = meshOf('borrin', 0.05);
    useMesh.setState({ shown: last });
    useDial.getState().setCount(4);
    await untilRound(() => round()?.mesh === last && round()?.places.length === 4);
    expect(round()?.runout.full).toBe(0.1);
    // those between were never worked out
    expect(source.solves).toBeLessThan(60);
  });

  it('keep the last good round and name the failure when the core refuses', async () => {
    useMesh.setState({ shown: meshOf('borrin') });
    const source = countedCore();
    end = followDial(source);
    await untilRound(() => round() !== null);
    const good = round();
    const refuse = vi.spyOn(source, 'solve').mockResolvedValue({
      ok: false,
      failure: { kind: 'internal', message: 'spoiled' },
    });
    useDial.getState().setRunout({ full: 0.05 });
    await untilRound(() => useDial.getState().failure !== null);
    expect(round()).toBe(good);
    refuse.mockRestore();
    useDial.getState().setRunout({ full: 0.06 });
    await untilRound(() => round() !== good);
    expect(useDial.getState().failure).toBeNull();
  });

  it('build the gear set again when the core has forgotten it', async () => {
    useMesh.setState({ shown: meshOf('aldra') });
    const fresh = new MeshCore();
    useDial.getState().setRunout({ full: 0.04 });
    end = followDial({
      load: async (...request) => fresh.load(...request),
      solve: async (...request) => fresh.solve(...request),
    });
    await untilRound(() => round()?.places.length === 6);
  });
});

describe('the place looked at', () => {
  it('belongs to the axle that is shown and is left when another comes, or the places change', async () => {
    const mesh = meshOf('borrin');
    useMesh.setState({ shown: mesh });
    useDial.getState().setRunout({ full: 0.05 });
    end = followDial(countedCore());
    await untilRound(() => round() !== null);
    useDial.getState().goTo(2);
    expect(placeShown(useDial.getState(), mesh)?.tooth).toBe(teethAt(6, 47)[2]);
    useDial.getState().setCount(8);
    expect(useDial.getState().place).toBeNull();

    useDial.getState().goTo(1);
    const other = meshOf('cavel');
    useMesh.setState({ shown: other });
    expect(useDial.getState().place).toBeNull();
    useDial.getState().goTo(1);
    // the former axle's readings are not the new one's
    expect(placeShown({ ...useDial.getState(), round: round() }, meshOf('dornet'))).toBeNull();
  });
});
