import { describe, expect, it } from 'vitest';
import { Rock } from '../../src/state/rock.ts';

/** Shares after each of `count` steps of `seconds`. */
const run = (rock: Rock, count: number, seconds: number): number[] =>
  Array.from({ length: count }, () => {
    rock.advance(seconds);
    return rock.share;
  });

describe('the rock of the ring', () => {
  it('goes from drive contact to coast contact and back, stands at both, and never leaps', () => {
    const rock = new Rock();
    rock.start();
    const shares = run(rock, 400, 0.01);
    expect(Math.min(...shares)).toBe(0);
    expect(Math.max(...shares)).toBe(1);
    expect(shares.filter((share) => share === 1).length).toBeGreaterThan(30);
    expect(shares.filter((share) => share === 0).length).toBeGreaterThan(30);
    const leaps = shares.map((share, i) => Math.abs(share - (shares[i - 1] ?? 0)));
    expect(Math.max(...leaps)).toBeLessThan(0.03);
    for (const share of shares) {
      expect(share).toBeGreaterThanOrEqual(0);
      expect(share).toBeLessThanOrEqual(1);
    }
  });

  it('goes on from where the hand left the ring', () => {
    for (const share of [0, 0.2, 0.5, 0.93, 1]) {
      const rock = new Rock();
      rock.hold(share);
      rock.start();
      rock.advance(1e-4);
      expect(rock.share).toBeCloseTo(share, 2);
    }
  });

  it('is taken by hand at once and keeps within the play', () => {
    const rock = new Rock();
    rock.start();
    rock.advance(0.3);
    rock.hold(0.25);
    expect(rock).toMatchObject({ share: 0.25, rocking: false });
    expect(rock.advance(1)).toBe(false);
    expect(rock.share).toBe(0.25);
    rock.hold(7);
    expect(rock.share).toBe(1);
    rock.hold(-1);
    expect(rock.share).toBe(0);
  });

  it('stops where it is', () => {
    const rock = new Rock();
    rock.start();
    rock.advance(0.4);
    const { share } = rock;
    rock.toggle();
    rock.advance(0.4);
    expect(rock.share).toBe(share);
  });

  it('goes in three steps where motion is reduced', () => {
    const rock = new Rock();
    rock.reducedMotion = true;
    rock.start();
    const shares = new Set(run(rock, 200, 0.05));
    expect(shares).toEqual(new Set([0, 0.5, 1]));
  });

  it('has nothing to do without play, and goes back to drive contact when the play is gone', () => {
    const rock = new Rock();
    rock.start();
    rock.advance(0.5);
    rock.setFree(false);
    expect(rock).toMatchObject({ share: 0, rocking: false });
    rock.toggle();
    expect(rock.rocking).toBe(false);
    rock.setFree(true);
    rock.toggle();
    expect(rock.rocking).toBe(true);
  });

  it('tells whoever listens, and nobody after they left', () => {
    const rock = new Rock();
    let told = 0;
    const leave = rock.subscribe(() => {
      told += 1;
    });
    rock.hold(0.5);
    expect(told).toBe(1);
    // an end that lasts is told once
    rock.start();
    run(rock, 400, 0.01);
    const before = told;
    expect(before).toBeLessThan(300);
    leave();
    rock.hold(0.1);
    expect(told).toBe(before);
  });
});
