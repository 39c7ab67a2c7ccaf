import type { Vector3 } from 'three';
import type { HousingLayout } from './layout.ts';
import type { PartName } from './parts.ts';

/** Places looked at on the way from a point to the eye. */
const STEPS = 48;
/** mm in front of a point that do not count: it lies on a surface */
const SKIN = 2.5;

/**
 * Whether a point of a part is hidden from the eye by one of the large bodies: ring, carrier, pinion head, shell. Both in
 * the housing's frame before any mirroring, mm, at the design position: close enough to decide whether a label may point there.
 */
export function isHidden(layout: HousingLayout, part: PartName, point: Vector3, eye: Vector3): boolean {
  const { gears, carrierSide, pinionSide } = layout;
  const { ring, pinion, offset } = gears;
  const dx = eye.x - point.x;
  const dy = eye.y - point.y;
  const dz = eye.z - point.z;
  const distance = Math.hypot(dx, dy, dz);
  const reach = Math.min(3.2 * ring.outer, distance);
  const inside = carrierSide.bowlOuter - 0.05 * ring.outer;
  for (let i = 0; i < STEPS; i++) {
    // close steps first: bodies near the point are the thin ones
    const share = i / (STEPS - 1);
    const t = (SKIN + (reach - SKIN) * share * share) / distance;
    const x = point.x + t * dx;
    const y = point.y + t * dy;
    const z = point.z + t * dz;
    const r = Math.hypot(x, y);
    if (part !== 'ring' && z > ring.back && z < ring.toe && r > ring.bore && r < ring.outer) return true;
    if (part !== 'carrier' && z > ring.back && z < carrierSide.top && r < carrierSide.body) return true;
    if (y < -1 && r > inside && r < carrierSide.bowlOuter && z > carrierSide.low && z < carrierSide.high) {
      if (!(x > 0 && Math.hypot(y - offset, z) < pinionSide.boss.outer)) return true;
    }
    const rp = Math.hypot(y - offset, z);
    if (part !== 'pinion' && x > pinion.toe && x < pinion.shoulder && rp < 0.8 * pinion.tip) return true;
    if (
      part !== 'flange' &&
      x > pinionSide.flangeFrom &&
      x < pinionSide.flangeTo &&
      rp < 0.97 * pinionSide.flangeRadius
    )
      return true;
  }
  return false;
}
