import type { HomePatch, WishName } from '../../../../sim/worker/longProtocol.ts';
import { clamp } from '../../../state/ranges.ts';

/** What a wanted mark is taken by: its middle, its heel end (how long, which way it leans) and its top (how high). */
export const HANDLES = ['centre', 'end', 'top'] as const;
export type HandleName = (typeof HANDLES)[number];

/** What of the mark each handle changes. */
export const WISHES_OF: Readonly<Record<HandleName, readonly WishName[]>> = {
  centre: ['toeHeel', 'rootFace'],
  end: ['length', 'tilt'],
  top: ['height'],
};

export type FlankPlace = readonly [u: number, v: number];

const CENTRE = { least: -0.8, most: 0.8 };
const EXTENT = { least: 0.08, most: 1 };
/** most of height / length that a tilt may be: beyond it the oval is a line */
const STEEPEST = 0.9;
const ON_FLANK = { least: -1, most: 1 };

const held = (patch: HomePatch): HomePatch => {
  const length = clamp(EXTENT, patch.length);
  const height = clamp(EXTENT, patch.height);
  const steepest = (STEEPEST * height) / length;
  return {
    toeHeel: clamp(CENTRE, patch.toeHeel),
    rootFace: clamp(CENTRE, patch.rootFace),
    length,
    height,
    tilt: clamp({ least: -steepest, most: steepest }, patch.tilt),
  };
};

/** Where the handles stand; one that would lie beyond the flank stands at its edge. */
export function placeOfHandle(patch: HomePatch, handle: HandleName): FlankPlace {
  const { toeHeel, rootFace, length, height, tilt } = patch;
  if (handle === 'centre') return [toeHeel, rootFace];
  if (handle === 'end') {
    const along = clamp(ON_FLANK, toeHeel + length) - toeHeel;
    return [toeHeel + along, clamp(ON_FLANK, rootFace + tilt * along)];
  }
  return [toeHeel, clamp(ON_FLANK, rootFace + height)];
}

/** The wanted mark after a handle was taken to a place of the flank. */
export function draggedTo(patch: HomePatch, handle: HandleName, [u, v]: FlankPlace): HomePatch {
  const { toeHeel, rootFace } = patch;
  if (handle === 'centre') return held({ ...patch, toeHeel: u, rootFace: v });
  if (handle === 'top') return held({ ...patch, height: v - rootFace });
  const length = Math.max(EXTENT.least, u - toeHeel);
  return held({ ...patch, length, tilt: (v - rootFace) / length });
}

/** Share of half the face width or half the working height per press of an arrow key. */
export const KEY_STEP = { usual: 0.02, fine: 0.005 } as const;

const ARROWS: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** The wanted mark after a key; null for a key that does nothing. Right is toward the heel where the map has it there. */
export function pressed(
  patch: HomePatch,
  handle: HandleName,
  key: string,
  step: number,
  heelOnRight: boolean,
): HomePatch | null {
  const arrow = ARROWS[key];
  if (arrow === undefined) return null;
  const along = arrow[0] * step * (heelOnRight ? 1 : -1);
  const up = arrow[1] * step;
  if (handle === 'centre')
    return held({ ...patch, toeHeel: patch.toeHeel + along, rootFace: patch.rootFace + up });
  if (handle === 'top') return up === 0 ? null : held({ ...patch, height: patch.height + up });
  return held({ ...patch, length: patch.length + along, tilt: patch.tilt + up / patch.length });
}

const CORNERS = 72;

/** The oval of a mark: as long, as high and leaning as much as it says. */
export function ovalOf({ toeHeel, rootFace, length, height, tilt }: HomePatch): readonly FlankPlace[] {
  // of an evenly filled oval, tilt = slope of its regression line: the correlation of u and v
  const lean = clamp({ least: -0.999, most: 0.999 }, (tilt * length) / height);
  return Array.from({ length: CORNERS }, (_, index) => {
    const angle = (2 * Math.PI * index) / CORNERS;
    const across = lean * Math.cos(angle) + Math.sqrt(1 - lean * lean) * Math.sin(angle);
    return [toeHeel + length * Math.cos(angle), rootFace + height * across] as const;
  });
}
