import type { GearMesh } from '../gearset/gearMesh.ts';
import type { Partner } from '../gearset/pinionFlank.ts';
import { pinionTipRadius } from '../gearset/pinionTip.ts';

/** Cubic-interpolated table of the pinion tip radius over the axial range of the partners. */
export const tabulateTip = (
  mesh: GearMesh,
  partners: ReadonlyArray<Partner | null>,
): ((x: number) => number) => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const partner of partners) {
    if (!partner) continue;
    low = Math.min(low, partner.axial);
    high = Math.max(high, partner.axial);
  }
  low -= 3;
  high += 3;
  const count = Math.max(8, Math.ceil((high - low) / 0.75));
  const step = (high - low) / (count - 1);
  const radii = Array.from({ length: count }, (_, i) =>
    pinionTipRadius(mesh.pitch, mesh.blank, low + i * step),
  );
  return (x) => {
    const s = (x - low) / step;
    const i = Math.min(count - 3, Math.max(1, Math.floor(s)));
    const t = s - i;
    const [p0, p1, p2, p3] = [radii[i - 1], radii[i], radii[i + 1], radii[i + 2]];
    return (
      (-p0 * t * (t - 1) * (t - 2)) / 6 +
      (p1 * (t + 1) * (t - 1) * (t - 2)) / 2 -
      (p2 * (t + 1) * t * (t - 2)) / 2 +
      (p3 * (t + 1) * t * (t - 1)) / 6
    );
  };
};
