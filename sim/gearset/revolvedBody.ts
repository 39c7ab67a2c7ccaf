import { TURN } from '../math/angles.ts';
import type { Vec3 } from '../math/vec3.ts';
import type { TriangleMesh } from './solids.ts';
import { type SurfaceNode, TriangleWriter } from './triangleWriter.ts';

/** Point of a half-section: distance from the axis and place along it, mm. */
export interface SectionPoint {
  readonly radius: number;
  readonly axial: number;
}

/**
 * Revolves an open half-section about an axis; edges stay sharp. The section runs so that the material lies on its
 * left when the radius is drawn to the right and the axis upward.
 */
export const revolveSection = (
  section: readonly SectionPoint[],
  segments: number,
  toPoint: (radius: number, axial: number, angle: number) => Vec3,
): TriangleMesh => {
  const writer = new TriangleWriter();
  for (let k = 0; k + 1 < section.length; k++) {
    const from = section[k];
    const to = section[k + 1];
    const dr = to.radius - from.radius;
    const da = to.axial - from.axial;
    const size = Math.hypot(dr, da);
    if (size === 0) continue;
    const rows = [from, to].map((point) =>
      Array.from({ length: segments + 1 }, (_, i): SurfaceNode => {
        const angle = (TURN * i) / segments;
        return { point: toPoint(point.radius, point.axial, angle), u: 0, v: 0 };
      }),
    );
    const normals = rows.map((row) =>
      row.map((_, i): Vec3 => {
        const angle = (TURN * i) / segments;
        const tip = toPoint(da / size, -dr / size, angle);
        const origin = toPoint(0, 0, angle);
        return [tip[0] - origin[0], tip[1] - origin[1], tip[2] - origin[2]];
      }),
    );
    writer.addGrid(rows, normals, 'none');
  }
  return writer.finish();
};
