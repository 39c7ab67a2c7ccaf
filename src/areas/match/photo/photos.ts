import { create } from 'zustand';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { midPoints, type PhotoPoint, type ToothPointName, type ToothPoints } from './straighten.ts';

/** A photo as it is shown: turned by quarters, mirrored or not. */
export interface Photo {
  /** upright as the camera meant it, not larger than MOST_PIXELS along */
  readonly picture: HTMLCanvasElement;
  readonly points: ToothPoints;
}

export interface PhotosStore {
  /** by axle and flank: a photo of one axle is no picture of another */
  readonly photos: ReadonlyMap<string, Photo>;
  readonly put: (axleId: string, flank: FlankName, photo: Photo | null) => void;
  readonly reset: () => void;
}

/** Photos under the paint: on this device, while the page is open, and nowhere else. */
export const usePhotos = create<PhotosStore>()((set) => ({
  photos: new Map(),
  put: (axleId, flank, photo) =>
    set(({ photos }) => {
      const changed = new Map(photos);
      if (photo === null) changed.delete(keyOf(axleId, flank));
      else changed.set(keyOf(axleId, flank), photo);
      return { photos: changed };
    }),
  reset: () => set({ photos: new Map() }),
}));

const keyOf = (axleId: string, flank: FlankName): string => `${axleId} ${flank}`;

export const photoOf = (photos: PhotosStore['photos'], axleId: string, flank: FlankName): Photo | null =>
  photos.get(keyOf(axleId, flank)) ?? null;

/** px along the longer side: a finger's breadth of tooth keeps more of them than anybody can paint. */
const MOST_PIXELS = 1800;

/** A canvas to draw a photo on; its pixels are read back each time a point is moved. */
const canvasOf = (width: number, height: number) => {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  return { canvas, context: canvas.getContext('2d', { willReadFrequently: true }) };
};

/** Corners a person can begin from: a tooth across the middle of the photo, toe on the left or on the right. */
function startPoints(width: number, height: number, heelOnRight: boolean): ToothPoints {
  const at = (x: number, y: number): PhotoPoint => ({ x: x * width, y: y * height });
  const [toe, heel] = heelOnRight ? [0.2, 0.8] : [0.8, 0.2];
  const corners = {
    toeRoot: at(toe, 0.65),
    toeFace: at(toe, 0.38),
    heelFace: at(heel, 0.35),
    heelRoot: at(heel, 0.68),
  };
  return { ...corners, ...(midPoints(corners) ?? { midFace: at(0.5, 0.36), midRoot: at(0.5, 0.66) }) };
}

/**
 * Reads a picture file.
 * @throws DOMException when the file is not a picture the browser knows
 */
export async function readPhoto(file: Blob, heelOnRight: boolean): Promise<Photo> {
  // the camera's own note of which way is up is followed
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, MOST_PIXELS / Math.max(bitmap.width, bitmap.height));
  const { canvas: picture, context } = canvasOf(
    Math.round(bitmap.width * scale),
    Math.round(bitmap.height * scale),
  );
  context?.drawImage(bitmap, 0, 0, picture.width, picture.height);
  bitmap.close();
  return { picture, points: startPoints(picture.width, picture.height, heelOnRight) };
}

type Move = (point: PhotoPoint) => PhotoPoint;

const movePoints = (points: ToothPoints, move: Move): ToothPoints =>
  Object.fromEntries(Object.entries(points).map(([name, point]) => [name, move(point)])) as Record<
    ToothPointName,
    PhotoPoint
  >;

/** A quarter turn clockwise; the marked points turn along. */
export function turnPhoto({ picture, points }: Photo): Photo {
  const { canvas: turned, context } = canvasOf(picture.height, picture.width);
  context?.translate(turned.width, 0);
  context?.rotate(Math.PI / 2);
  context?.drawImage(picture, 0, 0);
  return { picture: turned, points: movePoints(points, ({ x, y }) => ({ x: picture.height - y, y: x })) };
}

/** Left and right change places, as in a photo of a mirror; the marked points stay with what they mark. */
export function mirrorPhoto({ picture, points }: Photo): Photo {
  const { canvas: mirrored, context } = canvasOf(picture.width, picture.height);
  context?.translate(mirrored.width, 0);
  context?.scale(-1, 1);
  context?.drawImage(picture, 0, 0);
  return { picture: mirrored, points: movePoints(points, ({ x, y }) => ({ x: picture.width - x, y })) };
}

/** Moves one point; the edge points follow the corners until they are moved themselves. */
export function movePoint(points: ToothPoints, name: ToothPointName, to: PhotoPoint): ToothPoints {
  if (name === 'midFace' || name === 'midRoot') return { ...points, [name]: to };
  const before = midPoints(points);
  const corners = { ...points, [name]: to };
  const after = midPoints(corners);
  if (before === null || after === null) return corners;
  const carried = (mid: 'midFace' | 'midRoot'): PhotoPoint => ({
    x: points[mid].x + after[mid].x - before[mid].x,
    y: points[mid].y + after[mid].y - before[mid].y,
  });
  return { ...corners, midFace: carried('midFace'), midRoot: carried('midRoot') };
}
