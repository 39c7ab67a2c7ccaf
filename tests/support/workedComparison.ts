import { MeshSolver } from '../../sim/contact/meshSolver.ts';
import { DESIGN_POSE, type Pose } from '../../sim/contact/pose.ts';
import { EDGES, reportBacklash, reportPatch } from '../../sim/contact/report.ts';
import { FLANKS, type FlankName } from '../../sim/gearset/definition.ts';
import type { GearMesh } from '../../sim/gearset/gearMesh.ts';
import { reportGeometry } from '../../sim/gearset/geometryReport.ts';
import { REFERENCE_FILM, type WorkedFlank, type WorkedNumbers } from './referenceSets.ts';

/** One computed number beside the worked one; tolerance of docs/model.md §8 in the same unit. */
export interface Compared {
  /** as in the worked file; an item of a list as `meanPoint[0]` */
  readonly field: string;
  readonly computed: number;
  readonly worked: number;
  readonly tolerance: number;
}

export const deviation = ({ computed, worked }: Compared): number => Math.abs(computed - worked);

const ANGLE_DEG = 0.01;
const LENGTH_MM = 0.01;
const PATCH = { toeHeel: 0.02, rootFace: 0.02, length: 0.03, height: 0.03, area: 0.015 } as const;
const DIAL_MM = 0.002;
const DIAL_FIELDS = ['normal', 'normalMean', 'normalRange', 'tangential'] as const;
const TRANSMISSION = { microradians: 6, share: 0.05 } as const;

/** Tolerances in words, by field of the worked numbers. */
export const TOLERANCE_IN_WORDS: Readonly<Record<string, string>> = {
  toeHeel: '±0.02',
  rootFace: '±0.02',
  length: '±0.03',
  height: '±0.03',
  area: '±0.015',
  transmissionError: '±6 µrad or 5 %',
  normal: '±0.002 mm',
  normalMean: '±0.002 mm',
  normalRange: '±0.002 mm',
  tangential: '±0.002 mm',
  angle: '±0.01°',
};

/** Every number of the worked geometry, mm and degrees. */
export const compareGeometry = (mesh: GearMesh, worked: WorkedNumbers): Compared[] => {
  const geometry = reportGeometry(mesh) as unknown as Record<string, number | readonly number[]>;
  return Object.entries(worked.geometry).flatMap(([field, expected]) => {
    const tolerance = field.endsWith('Angle') ? ANGLE_DEG : LENGTH_MM;
    const computed = [geometry[field]].flat();
    return [expected].flat().map((number, i) => ({
      field: Array.isArray(expected) ? `${field}[${i}]` : field,
      computed: Number(computed[i]),
      worked: Number(number),
      tolerance,
    }));
  });
};

/** All descriptors of one pose beside the worked ones. */
export interface ComparedPose {
  readonly pose: Partial<Pose>;
  readonly flanks: Readonly<Record<FlankName, readonly Compared[]>>;
  readonly edges: Readonly<Record<FlankName, { readonly computed: string; readonly worked: string }>>;
  readonly backlash: readonly Compared[];
}

const inOrder = (edges: readonly string[]): string => EDGES.filter((edge) => edges.includes(edge)).join(' ');

/** Every worked pose of a set, on the display grid. */
export const comparePoses = (mesh: GearMesh, worked: WorkedNumbers): ComparedPose[] => {
  const solver = new MeshSolver(mesh);
  const solution = solver.createSolution();
  const flankOf = (flank: FlankName, wanted: WorkedFlank): Compared[] => {
    const patch = reportPatch(solution, flank);
    const compared = (field: keyof typeof PATCH | 'transmissionError', tolerance: number): Compared => ({
      field,
      computed: patch[field] ?? Number.NaN,
      worked: wanted[field],
      tolerance,
    });
    return [
      ...(Object.keys(PATCH) as Array<keyof typeof PATCH>).map((field) => compared(field, PATCH[field])),
      compared(
        'transmissionError',
        Math.max(TRANSMISSION.microradians, TRANSMISSION.share * wanted.transmissionError),
      ),
    ];
  };
  return worked.poses.map((entry) => {
    solver.solve({ ...DESIGN_POSE, ...entry.pose }, REFERENCE_FILM, solution);
    const backlash = reportBacklash(solution);
    const dial = (field: keyof typeof entry.backlash, tolerance: number): Compared => ({
      field,
      computed: backlash[field] ?? Number.NaN,
      worked: entry.backlash[field],
      tolerance,
    });
    const edgesOf = (flank: FlankName) => ({
      computed: inOrder(reportPatch(solution, flank).edges),
      worked: inOrder(entry[flank].edges),
    });
    return {
      pose: entry.pose,
      flanks: { drive: flankOf('drive', entry.drive), coast: flankOf('coast', entry.coast) },
      edges: { drive: edgesOf('drive'), coast: edgesOf('coast') },
      backlash: [...DIAL_FIELDS.map((field) => dial(field, DIAL_MM)), dial('angle', ANGLE_DEG)],
    };
  });
};

/** Flank by flank, then the dial: every number compared in a pose. */
export const allCompared = ({ flanks, backlash }: ComparedPose): Compared[] => [
  ...FLANKS.flatMap((flank) => flanks[flank]),
  ...backlash,
];
