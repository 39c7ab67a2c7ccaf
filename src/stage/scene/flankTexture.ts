import { DataTexture, FloatType, NearestFilter, NoColorSpace, RGBAFormat } from 'three';
import { type FlankResult, type GridSize, NOT_MEETING } from '../../../sim/worker/protocol.ts';

/** Floats per texel: separation mm, tip clearance mm, phase rad, unused. */
export const TEXEL = 4;

/** Above this a texel counts as a point that never meets. */
export const NEVER = NOT_MEETING / 2;

type FlankFields = Pick<FlankResult, 'separation' | 'tipClearance' | 'phase'>;

/** Packs one solved flank, row by row from the working root, into `out` of TEXEL·columns·rows. */
export function packFlank(out: Float32Array, fields: FlankFields): void {
  const { separation, tipClearance, phase } = fields;
  for (let i = 0; i < separation.length; i++) {
    out[TEXEL * i] = separation[i];
    out[TEXEL * i + 1] = tipClearance[i];
    out[TEXEL * i + 2] = phase[i];
    out[TEXEL * i + 3] = 0;
  }
}

/**
 * Float texture read texel by texel and blended in the shader, so that no filtering extension is needed.
 * A fresh one never meets anywhere.
 */
export function createFlankTexture(grid: GridSize): DataTexture {
  const data = new Float32Array(TEXEL * grid.columns * grid.rows).fill(NOT_MEETING);
  const texture = new DataTexture(data, grid.columns, grid.rows, RGBAFormat, FloatType);
  texture.minFilter = NearestFilter;
  texture.magFilter = NearestFilter;
  texture.generateMipmaps = false;
  texture.colorSpace = NoColorSpace;
  texture.needsUpdate = true;
  return texture;
}

/** Shares of the mark and of the tooth opposite at (u, v), as the shader blends them: the test's twin of the GLSL look-up. */
export function sampleFlank(
  data: Float32Array,
  grid: GridSize,
  u: number,
  v: number,
): readonly [number, number, number] {
  const gx = Math.min(Math.max((u * 0.5 + 0.5) * (grid.columns - 1), 0), grid.columns - 1);
  const gy = Math.min(Math.max((v * 0.5 + 0.5) * (grid.rows - 1), 0), grid.rows - 1);
  const x = Math.min(Math.floor(gx), grid.columns - 2);
  const y = Math.min(Math.floor(gy), grid.rows - 2);
  const fx = gx - x;
  const fy = gy - y;
  const at = (dx: number, dy: number, channel: number) =>
    data[TEXEL * ((y + dy) * grid.columns + x + dx) + channel];
  const blend = (channel: number) =>
    (at(0, 0, channel) * (1 - fx) + at(1, 0, channel) * fx) * (1 - fy) +
    (at(0, 1, channel) * (1 - fx) + at(1, 1, channel) * fx) * fy;
  for (let k = 0; k < 4; k++) {
    if (at(k & 1, k >> 1, 0) > NEVER) return [NOT_MEETING, NOT_MEETING, NOT_MEETING];
  }
  return [blend(0), blend(1), blend(2)];
}
