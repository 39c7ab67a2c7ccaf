import { readFileSync } from 'node:fs';
import type { Pose } from '../../sim/contact/pose.ts';
import type { FlankName, GearSetDefinition } from '../../sim/gearset/definition.ts';

const FOLDER = new URL('../fixtures/reference/', import.meta.url);

/** Worked numbers of an independent program: degrees, mm, µrad. */
export interface ReferenceFlank {
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly area: number;
  readonly transmissionError: number;
}

export interface Reference {
  readonly geometry: Readonly<Record<string, number>>;
  readonly meanPoint: readonly [number, number, number];
  readonly poses: readonly (Readonly<Record<FlankName, ReferenceFlank>> & {
    readonly pose: Partial<Pose>;
    readonly backlash: {
      readonly normal: number;
      readonly normalMean: number;
      readonly normalRange: number;
      readonly tangential: number;
      readonly angle: number;
    };
  })[];
}

export const SETS = ['a', 'b'] as const;
export type SetName = (typeof SETS)[number];

export function referenceSet(name: SetName): GearSetDefinition {
  return JSON.parse(readFileSync(new URL(`set-${name}.json`, FOLDER), 'utf8')) as GearSetDefinition;
}

export function referenceNumbers(name: SetName): Reference {
  const parsed = JSON.parse(readFileSync(new URL(`set-${name}.expected.json`, FOLDER), 'utf8')) as {
    geometry: Record<string, unknown>;
    poses: Reference['poses'];
  };
  const { meanPoint, ...geometry } = parsed.geometry;
  return { geometry, meanPoint, poses: parsed.poses } as Reference;
}

/** The same set without crowning: the pinion is then the ring's exact conjugate. */
export function withoutEaseOff(definition: GearSetDefinition): GearSetDefinition {
  const flat = { lengthwise: 0, profile: 0, bias: 0, centerToeHeel: 0, centerRootFace: 0 };
  return { ...definition, easeOff: { drive: flat, coast: flat } };
}

/** Seeded numbers in (−1, 1), enough for choosing test places. */
export function seededNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return (((t ^ (t >>> 14)) >>> 0) / 4294967296) * 2 - 1;
  };
}
