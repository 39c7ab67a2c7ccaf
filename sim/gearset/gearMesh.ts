import { type Blank, proportionBlank } from './blank.ts';
import { checkDefinition } from './checkDefinition.ts';
import { type Cutter, setCutter } from './cutter.ts';
import { type EaseOffDefinition, FLANKS, type FlankName, type GearSetDefinition } from './definition.ts';
import { checkEaseOff } from './easeOff.ts';
import { checkMakeability, type MakeabilityWarning } from './makeability.ts';
import { PinionFlank } from './pinionFlank.ts';
import { findPitchPoint, type PitchPoint } from './pitchPoint.ts';
import { RingFlank } from './ringFlank.ts';

/** One flank pair: the ring's cut surface and the pinion's conjugate of it. */
export interface FlankPair {
  readonly ring: RingFlank;
  readonly pinion: PinionFlank;
}

/**
 * A makeable gear set as surfaces, in the frame of docs/model.md §2 for a positive offset.
 * A negative offset is held as its mirror image: `mirrored` is set and the y axis of everything is reversed.
 */
export interface GearMesh {
  readonly definition: GearSetDefinition;
  readonly pitch: PitchPoint;
  readonly blank: Blank;
  readonly cutter: Cutter;
  readonly flanks: Readonly<Record<FlankName, FlankPair>>;
  readonly mirrored: boolean;
  readonly warnings: readonly MakeabilityWarning[];
}

/**
 * Builds the surfaces of a gear set and checks that they can be made (docs/model.md §3, §4, §6).
 * @throws UnmakeableError naming the field, what was found and what would do.
 */
export const buildGearMesh = (definition: GearSetDefinition): GearMesh => {
  checkDefinition(definition);
  for (const flank of FLANKS) checkEaseOff(flank, definition.easeOff[flank]);
  const pitch = findPitchPoint(definition);
  const blank = proportionBlank(definition, pitch);
  const cutter = setCutter(definition, pitch, blank);
  const pair = (flank: FlankName): FlankPair => {
    const ring = new RingFlank(flank, pitch, blank, cutter);
    return { ring, pinion: new PinionFlank(ring, pitch.ratio, pitch.offset, definition.easeOff[flank]) };
  };
  const surfaces = {
    definition,
    pitch,
    blank,
    cutter,
    flanks: { drive: pair('drive'), coast: pair('coast') },
    mirrored: definition.offset < 0,
  };
  return { ...surfaces, warnings: checkMakeability(surfaces) };
};

/**
 * The same gear set with another ease-off: the ring and the conjugate of it are shared. What can be made is not asked
 * again: ease-off moves nothing but the pinion's top land, which `checkPinionTopLand` measures.
 * @throws UnmakeableError (`ease-off-not-a-hill`)
 */
export const withEaseOff = (
  mesh: GearMesh,
  easeOff: Readonly<Record<FlankName, EaseOffDefinition>>,
): GearMesh => {
  for (const flank of FLANKS) checkEaseOff(flank, easeOff[flank]);
  const pair = (flank: FlankName): FlankPair => {
    const { ring } = mesh.flanks[flank];
    return { ring, pinion: new PinionFlank(ring, mesh.pitch.ratio, mesh.pitch.offset, easeOff[flank]) };
  };
  return {
    ...mesh,
    definition: { ...mesh.definition, easeOff },
    flanks: { drive: pair('drive'), coast: pair('coast') },
  };
};
