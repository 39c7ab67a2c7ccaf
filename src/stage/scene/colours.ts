import type { Vector3 } from 'three';

export type StageTheme = 'workshop' | 'projector';

/** Colours of the drawing in the values of the screen (sRGB, #rrggbb). */
export interface PaintColours {
  /** the marking compound as brushed on */
  readonly compound: string;
  /** the flank where the compound is rubbed off */
  readonly mark: string;
}

/**
 * Light of the room (linear) and the colours of what is not paint (sRGB).
 * Lines are near white with a dark casing so that they read on every compound.
 */
export interface Light {
  readonly ringSteel: readonly [number, number, number];
  readonly pinionSteel: readonly [number, number, number];
  readonly sky: readonly [number, number, number];
  readonly ground: readonly [number, number, number];
  readonly key: readonly [number, number, number];
  readonly fill: number;
  /** brightness a see-through member gains at its outline; negative darkens */
  readonly glow: number;
  readonly section: string;
  readonly line: string;
  readonly lineCasing: string;
}

export const LIGHT: Readonly<Record<StageTheme, Light>> = {
  workshop: {
    ringSteel: [0.56, 0.575, 0.59],
    pinionSteel: [0.6, 0.56, 0.51],
    sky: [0.2, 0.215, 0.235],
    ground: [0.022, 0.024, 0.028],
    key: [1.0, 0.985, 0.945],
    fill: 0.5,
    glow: 0.9,
    section: '#3a4046',
    line: '#ffffff',
    lineCasing: '#0b1512',
  },
  projector: {
    ringSteel: [0.6, 0.61, 0.625],
    pinionSteel: [0.63, 0.59, 0.54],
    sky: [0.5, 0.515, 0.535],
    ground: [0.07, 0.072, 0.076],
    key: [1.05, 1.05, 1.03],
    fill: 0.5,
    glow: -0.7,
    section: '#8d9196',
    line: '#ffffff',
    lineCasing: '#0b1512',
  },
};

/** Screen values 0…1 of a #rrggbb colour, untouched by any colour management. */
export function screenColour(out: Vector3, hex: string): Vector3 {
  const value = Number.parseInt(hex.slice(1), 16);
  if (!/^#[0-9a-fA-F]{6}$/.test(hex)) {
    throw new RangeError(`colour: '${hex}' is not of the form #rrggbb`);
  }
  return out.set(((value >> 16) & 255) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255);
}
