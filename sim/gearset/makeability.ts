import { TURN, wrapAngle } from '../math/angles.ts';
import type { Blank } from './blank.ts';
import { FLANKS, type FlankName, type GearSetDefinition } from './definition.ts';
import { UnmakeableError } from './errors.ts';
import type { Partner, PinionFlank } from './pinionFlank.ts';
import { toothAngle } from './pinionFlank.ts';
import { pinionTipRadius } from './pinionTip.ts';
import type { PitchPoint } from './pitchPoint.ts';
import type { RingFlank } from './ringFlank.ts';

/** Makeable, but near a limit. */
export interface MakeabilityWarning {
  readonly field: string;
  readonly message: string;
}

interface Surfaces {
  readonly definition: GearSetDefinition;
  readonly pitch: PitchPoint;
  readonly blank: Blank;
  readonly flanks: Readonly<Record<FlankName, { readonly ring: RingFlank; readonly pinion: PinionFlank }>>;
}

/** Least transverse top land, in mean normal modules. */
const LEAST_LAND = 0.1;
/** Share of the mean Jacobian below which the pinion flank is nearly undercut. */
const NEAR_UNDERCUT = 0.3;
const COLUMNS = 21;
const ROWS = 15;
const at = (i: number, count: number) => -1 + (2 * i) / (count - 1);

/** Ring flank coordinate v at which the pinion's tip ends the contact at u; −1 when the whole flank is used. */
const tipCoordinate = (surfaces: Surfaces, flank: FlankName, u: number): number => {
  const { pitch, blank } = surfaces;
  const clearance = (v: number): number => {
    const partner = surfaces.flanks[flank].pinion.partner(u, v);
    if (!partner) return Number.NEGATIVE_INFINITY;
    return pinionTipRadius(pitch, blank, partner.axial) - partner.radius;
  };
  if (clearance(-1) >= 0) return -1;
  let low = -1;
  let high = 1;
  if (clearance(high) < 0) return 1;
  for (let i = 0; i < 40; i++) {
    const middle = 0.5 * (low + high);
    if (clearance(middle) < 0) low = middle;
    else high = middle;
  }
  return high;
};

const checkRingTopLand = ({ definition, blank, flanks }: Surfaces): void => {
  const least = LEAST_LAND * blank.normalModule;
  for (let i = 0; i < COLUMNS; i++) {
    const u = at(i, COLUMNS);
    const drive = flanks.drive.ring.at(u, 1).point;
    const coast = flanks.coast.ring.at(u, 1).point;
    const radius = Math.hypot(drive[0], drive[1]);
    const slot = Math.abs(wrapAngle(Math.atan2(coast[1], coast[0]) - Math.atan2(drive[1], drive[0])));
    const land = radius * (TURN / definition.ringTeeth - slot);
    if (land >= least) continue;
    throw new UnmakeableError(
      'top-land-ring',
      'tooth.slotFactor',
      `${definition.tooth.slotFactor} leaves the ring a top land of ${land.toFixed(2)} mm at ${placeName(u)}`,
      `at least ${least.toFixed(2)} mm: use a smaller tooth.slotFactor or tooth.depthFactor`,
    );
  }
};

const placeName = (u: number): string => (u < -0.33 ? 'the toe' : u > 0.33 ? 'the heel' : 'mid face');

/**
 * The pinion's top land with its ease-off: the only check that another ease-off can fail (docs/model.md §4).
 * @throws UnmakeableError (`top-land-pinion`)
 */
export const checkPinionTopLand = (surfaces: Surfaces): void => {
  const { definition, pitch, blank, flanks } = surfaces;
  const least = LEAST_LAND * blank.normalModule;
  let startU = -1;
  let startV = -0.8;
  let measured = 0;
  for (let i = 0; i < COLUMNS; i++) {
    const u = at(i, COLUMNS);
    const v = tipCoordinate(surfaces, 'drive', u);
    const drive = flanks.drive.pinion.partner(u, v);
    if (!drive) continue;
    const tip = pinionTipRadius(pitch, blank, drive.axial);
    const radius = Math.min(tip, drive.radius);
    const coast = flanks.coast.pinion.lookUp(drive.axial, radius, startU, startV);
    // Beyond the ends of the other flank there is no tooth to measure.
    if (!coast.converged || Math.abs(coast.u) > 1.15) continue;
    measured++;
    startU = coast.u;
    startV = coast.v;
    const land = toothAngle(drive, coast, drive.lever) * radius - definition.backlash;
    if (land >= least) continue;
    throw new UnmakeableError(
      'top-land-pinion',
      'tooth.depthFactor',
      `${definition.tooth.depthFactor} leaves the pinion a top land of ${land.toFixed(2)} mm at ${placeName(u)}`,
      `at least ${least.toFixed(2)} mm: use a smaller tooth.depthFactor, a larger tooth.slotFactor or a smaller faceWidth`,
    );
  }
  if (measured > 0) return;
  throw new UnmakeableError(
    'top-land-pinion',
    'tooth.depthFactor',
    `${definition.tooth.depthFactor} leaves the pinion's two flanks no common place at the tip`,
    'use a smaller tooth.depthFactor or a wider faceWidth',
  );
};

const checkFlank = (surfaces: Surfaces, flank: FlankName): MakeabilityWarning[] => {
  const { pinion } = surfaces.flanks[flank];
  const center = pinion.jacobian(0, 0);
  if (center === null) throw noRoot(surfaces.definition, flank, 0, 0);
  let worst = 1;
  for (let i = 0; i < COLUMNS; i++) {
    const u = at(i, COLUMNS);
    const tip = tipCoordinate(surfaces, flank, u);
    for (let j = 0; j < ROWS; j++) {
      const v = tip + (1 - tip) * (j / (ROWS - 1));
      const partner: Partner | null = pinion.partner(u, v);
      const jacobian = partner && pinion.jacobian(u, v);
      if (jacobian === null) throw noRoot(surfaces.definition, flank, u, v);
      worst = Math.min(worst, jacobian / center);
      if (jacobian / center > 0) continue;
      throw new UnmakeableError(
        'undercut',
        'tooth.depthFactor',
        `${surfaces.definition.tooth.depthFactor} undercuts the pinion's ${flank} flank near ${placeName(u)}`,
        'use a smaller tooth.depthFactor or tooth.ringAddendumFactor, a larger tooth.pressureAngle or more pinionTeeth',
      );
    }
  }
  if (worst >= NEAR_UNDERCUT) return [];
  return [
    {
      field: 'tooth.depthFactor',
      message: `the pinion's ${flank} flank is close to undercut (${Math.round(100 * worst)} % of its mean opening)`,
    },
  ];
};

const noRoot = (definition: GearSetDefinition, flank: FlankName, u: number, v: number): UnmakeableError =>
  new UnmakeableError(
    'no-contact-root',
    'tooth.pressureAngle',
    `${definition.tooth.pressureAngle}° leaves part of the ${flank} flank (${placeName(u)}, ${v < 0 ? 'root' : 'face'} half) that never meets the pinion`,
    'use a larger tooth.pressureAngle, a smaller tooth.depthFactor or a narrower faceWidth',
  );

/**
 * Checks on the finished surfaces: contact roots, undercut and top lands (docs/model.md §4, §6).
 * @throws UnmakeableError; returns warnings for what is makeable but near a limit.
 */
export const checkMakeability = (surfaces: Surfaces): MakeabilityWarning[] => {
  const warnings = FLANKS.flatMap((flank) => checkFlank(surfaces, flank));
  checkRingTopLand(surfaces);
  checkPinionTopLand(surfaces);
  return warnings;
};
