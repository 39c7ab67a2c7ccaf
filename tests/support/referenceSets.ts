import { readFileSync } from 'node:fs';
import type { Pose } from '../../sim/contact/pose.ts';
import type { GearSetDefinition } from '../../sim/gearset/definition.ts';

/** Film of the worked numbers, mm. */
export const REFERENCE_FILM = 0.00635;

export interface WorkedFlank {
  readonly toeHeel: number;
  readonly rootFace: number;
  readonly length: number;
  readonly height: number;
  readonly area: number;
  readonly transmissionError: number;
  readonly edges: readonly string[];
}

export interface WorkedPose {
  readonly pose: Partial<Pose>;
  readonly drive: WorkedFlank;
  readonly coast: WorkedFlank;
  readonly backlash: Readonly<
    Record<'normal' | 'normalMean' | 'normalRange' | 'tangential' | 'angle', number>
  >;
}

export interface WorkedNumbers {
  readonly geometry: Readonly<Record<string, number | readonly number[]>>;
  readonly poses: readonly WorkedPose[];
}

const read = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../fixtures/reference/${name}`, import.meta.url), 'utf8'));

/** Worked sets: a is face-milled, b is face-hobbed. */
export const referenceSet = (name: 'a' | 'b'): GearSetDefinition =>
  read(`set-${name}.json`) as GearSetDefinition;

export const workedNumbers = (name: 'a' | 'b'): WorkedNumbers =>
  read(`set-${name}.expected.json`) as WorkedNumbers;
