import type { FlankMapCells, ShimMap, ShimMapChunk } from '../contact/shimMap.ts';

/** Solved cells of a shim map on their way to the page: three arrays, whatever the number of cells. */
export interface ShimMapPiece extends ShimMapChunk {
  readonly cells: Uint32Array;
  /** per cell: drive toeHeel, rootFace, coast toeHeel, rootFace, dial, dialMean */
  readonly numbers: Float64Array;
  /** per cell: drive edges, coast edges, binding */
  readonly flags: Uint8Array;
}

const NUMBERS = 6;
const FLAGS = 3;

export const packPiece = (map: ShimMap, cells: Uint32Array, chunk: ShimMapChunk): ShimMapPiece => {
  const numbers = new Float64Array(NUMBERS * cells.length);
  const flags = new Uint8Array(FLAGS * cells.length);
  cells.forEach((cell, i) => {
    numbers.set(
      [
        map.drive.toeHeel[cell],
        map.drive.rootFace[cell],
        map.coast.toeHeel[cell],
        map.coast.rootFace[cell],
        map.dial[cell],
        map.dialMean[cell],
      ],
      NUMBERS * i,
    );
    flags.set([map.drive.edges[cell], map.coast.edges[cell], map.binding[cell]], FLAGS * i);
  });
  return { ...chunk, cells, numbers, flags };
};

export const unpackPiece = (map: ShimMap, { cells, numbers, flags }: ShimMapPiece): void => {
  cells.forEach((cell, i) => {
    const n = NUMBERS * i;
    map.drive.toeHeel[cell] = numbers[n];
    map.drive.rootFace[cell] = numbers[n + 1];
    map.coast.toeHeel[cell] = numbers[n + 2];
    map.coast.rootFace[cell] = numbers[n + 3];
    map.dial[cell] = numbers[n + 4];
    map.dialMean[cell] = numbers[n + 5];
    map.drive.edges[cell] = flags[FLAGS * i];
    map.coast.edges[cell] = flags[FLAGS * i + 1];
    map.binding[cell] = flags[FLAGS * i + 2];
    map.solved[cell] = 1;
  });
};

const copyCells = ({ toeHeel, rootFace, edges }: FlankMapCells): FlankMapCells => ({
  toeHeel: toeHeel.slice(),
  rootFace: rootFace.slice(),
  edges: edges.slice(),
});

/** A map that no longer changes. */
export const copyMap = (map: ShimMap): ShimMap => ({
  ...map,
  drive: copyCells(map.drive),
  coast: copyCells(map.coast),
  dial: map.dial.slice(),
  dialMean: map.dialMean.slice(),
  binding: map.binding.slice(),
  solved: map.solved.slice(),
});
