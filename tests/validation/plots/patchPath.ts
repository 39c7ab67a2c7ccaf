import type { Pose } from '../../../sim/contact/pose.ts';
import { FLANKS, type FlankName } from '../../../sim/gearset/definition.ts';
import { namedSet, solverOf, solveWith } from '../solve.ts';
import { signed } from '../text.ts';
import { type Chart, type Panel, type Series, span } from './chart.ts';

const SETS = ['Borrin', 'Cavel'] as const;

const MOVES = [
  { label: 'pinion moved in (+) or out (−)', field: 'pinionIn', reach: 0.3, style: 0 },
  { label: 'ring moved away (+) or in (−)', field: 'ringAway', reach: 0.2, style: 1 },
] as const satisfies ReadonlyArray<{ label: string; field: keyof Pose; reach: number; style: number }>;

const pathOf = (
  setName: string,
  flank: FlankName,
  { label, field, reach, style }: (typeof MOVES)[number],
): Series => {
  const set = namedSet(setName);
  const solver = solverOf(set);
  const centre = (amount: number): readonly [number, number] => {
    const patch = solveWith(solver, { [field]: amount }, set.film)[flank];
    return [patch.toeHeel ?? Number.NaN, patch.rootFace ?? Number.NaN];
  };
  const dotted = span(-reach, reach, Math.round(reach / 0.05) + 1);
  return {
    label,
    style,
    points: span(-reach, reach, Math.round(reach / 0.0125) * 2 + 1).map(centre),
    dots: dotted.map((amount) => ({
      at: centre(amount),
      ...(Math.abs(amount) === reach ? { word: { text: signed(amount, 1), from: centre(0) } } : {}),
    })),
  };
};

const panel = (setName: string, flank: FlankName): Panel => ({
  title: `${setName} (${namedSet(setName).definition.cut.method}), ${flank} flank`,
  x: { title: 'toe −  …  heel +, half face widths', domain: [-0.7, 0.7], ticks: 7, digits: 1 },
  y: { title: 'root −  …  face +, half heights', domain: [-0.4, 0.6], ticks: 6, digits: 1 },
  series: MOVES.map((move) => pathOf(setName, flank, move)),
});

/** Where the centre of the mark goes while one shim changes. */
export const patchPathChart = (): Chart => ({
  title: 'Path of the mark’s centre as one member moves (mm; a dot every 0.1 mm)',
  description: `Centre of the mark on the flank, from the design position, at the axle's own film: pinion −0.3 to +0.3 mm and ring −0.2 to +0.2 mm, for ${SETS.join(' and ')}, drive and coast.`,
  panels: SETS.flatMap((set) => FLANKS.map((flank) => panel(set, flank))),
});
