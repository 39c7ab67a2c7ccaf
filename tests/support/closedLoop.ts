import { AXLES, type AxleId } from '../../models/index.ts';
import { candidatesAround, pinionChoices, pinionMove } from '../../sim/assembly/adviceCandidates.ts';
import type { AdviceTarget, Outcome } from '../../sim/assembly/adviceOutcome.ts';
import { grants, statedScore, WISHES } from '../../sim/assembly/adviceScore.ts';
import { type Fitment, fittedNow } from '../../sim/assembly/hardware.ts';
import type { MeshSolution, MeshSolver } from '../../sim/contact/meshSolver.ts';
import type { Pose } from '../../sim/contact/pose.ts';
import { adviseFrom, targetFor } from '../../sim/diagnose/adviseFrom.ts';
import { diagnose } from '../../sim/diagnose/diagnose.ts';
import type { Observation } from '../../sim/diagnose/observation.ts';
import type { EaseOffDefinition } from '../../sim/gearset/definition.ts';
import type { Workbench } from './diagnoseStudy.ts';
import type { Random } from './random.ts';
import { lookRepeatedly, normal } from './virtualLooks.ts';

/** How a virtual axle differs from its model. */
const DIFFERENCE = { center: 0.15, crowning: 0.25, thickness: 0.03 } as const;
/** Where its pinion and ring stand after a first guess at the shims, mm and degrees. */
const START = { pinionIn: 0.15, ringAway: 0.12, offsetError: 0.02, shaftAngleError: 0.02 } as const;
/** mm, runout as the dial sees it: half of its range; ln of one coat of compound over the next */
const RUNOUT = 0.01;
const COAT = 0.1;
const PLACES = 4;
/** Paintings per look, as the diagnosis asks for: the mean goes in. */
export const PAINTINGS = 2;
export const CHANGES = 2;

/** What following the advice came to on one virtual axle. */
export interface LoopResult {
  /** all that is asked for, at the end */
  readonly done: boolean;
  /** shims of the stock that would give all of it exist; and with a pinion step to spare either way */
  readonly reachable: boolean;
  readonly toSpare: boolean;
  /** backlash inside its limits at every place, no binding */
  readonly turns: boolean;
  readonly changes: number;
  readonly worse: number;
  readonly refused: boolean;
  /** times another look at the same shims was asked for, and taken */
  readonly further: number;
}

/** A virtual axle: a set unlike its model, somewhere off the design position. */
interface VirtualAxle {
  readonly solver: MeshSolver;
  readonly solution: MeshSolution;
  readonly film: number;
  readonly thickness: number;
  readonly places: readonly number[];
}

const drawAxle = (bench: Workbench, film: number, random: Random): VirtualAxle => {
  const { easeOff } = bench.exact.mesh.definition;
  const differ = (drawn: EaseOffDefinition): EaseOffDefinition => ({
    ...drawn,
    centerToeHeel: drawn.centerToeHeel + random.between(-DIFFERENCE.center, DIFFERENCE.center),
    centerRootFace: drawn.centerRootFace + random.between(-DIFFERENCE.center, DIFFERENCE.center),
    lengthwise: drawn.lengthwise * random.between(1 - DIFFERENCE.crowning, 1 + DIFFERENCE.crowning),
  });
  const solver = bench.shift.solverFor({ drive: differ(easeOff.drive), coast: differ(easeOff.coast) });
  const turn = random.between(0, 2 * Math.PI);
  return {
    solver,
    solution: solver.createSolution(),
    film,
    thickness: random.between(-DIFFERENCE.thickness, DIFFERENCE.thickness),
    places: Array.from({ length: PLACES }, (_, k) => RUNOUT * Math.cos(turn + (2 * Math.PI * k) / PLACES)),
  };
};

const outcomeAt = (axle: VirtualAxle, pose: Pose, film = axle.film): Outcome => {
  const { solver, solution, thickness } = axle;
  solver.solve(pose, film, solution);
  return {
    drive: { ...solution.drive.patch },
    coast: { ...solution.coast.patch },
    backlash: solution.backlash.normal + thickness,
    places: axle.places,
  };
};

const isDone = (outcome: Outcome, target: AdviceTarget): boolean =>
  WISHES.every((wish) => grants(wish, outcome, target));

/** Is there a fitment of the stock that gives all, and one whose neighbours by a pinion step do so too? */
const findReach = (
  id: AxleId,
  axle: VirtualAxle,
  pose: Pose,
  target: AdviceTarget,
): { readonly reachable: boolean; readonly toSpare: boolean } => {
  const hardware = AXLES[id];
  const present = fittedNow(hardware);
  const now = outcomeAt(axle, pose).backlash;
  const good: { readonly p: number; readonly r: number }[] = [];
  for (const shim of pinionChoices(hardware, present)) {
    const moved = pinionMove(hardware, present, shim);
    const ring = (target.backlash.best - now + 0.28 * moved) / 0.72;
    for (const { pinionIn, ringAway } of candidatesAround(hardware, present, shim, ring, 2, false)) {
      const there = { ...pose, pinionIn: pose.pinionIn + pinionIn, ringAway: pose.ringAway + ringAway };
      if (isDone(outcomeAt(axle, there), target)) good.push({ p: pinionIn, r: ringAway });
    }
  }
  const step = hardware.pinionShim.stock.step;
  const has = (p: number, r: number) =>
    good.some((one) => Math.abs(one.p - p) < 1e-6 && Math.abs(one.r - r) < 1e-6);
  return {
    reachable: good.length > 0,
    toSpare: good.some(({ p, r }) => has(p - step, r) && has(p + step, r)),
  };
};

/** Follows the advice to the letter with stock shims, on one virtual axle drawn anew. */
export const runLoop = (bench: Workbench, random: Random): LoopResult => {
  const hardware = AXLES[bench.id];
  const { limits, film_mm: film } = hardware;
  const axle = drawAxle(bench, film, random);
  let pose: Pose = {
    pinionIn: START.pinionIn * normal(random),
    ringAway: START.ringAway * normal(random),
    offsetError: START.offsetError * normal(random),
    shaftAngleError: START.shaftAngleError * normal(random),
  };
  const target = targetFor(bench.model, { limits: limits.backlash, recorded: null });
  const reach = findReach(bench.id, axle, pose, target);
  let present: Fitment = fittedNow(hardware);
  const looks: { readonly seen: Observation; readonly pose: Pose }[] = [];
  let changes = 0;
  let worse = 0;
  let refused = false;
  let further = 0;
  while (changes < CHANGES) {
    const coat = film * Math.exp(COAT * normal(random));
    const { backlash } = outcomeAt(axle, pose, coat);
    const readings = axle.places.map((place) => backlash + place);
    const seen = lookRepeatedly(axle.solution, readings, PAINTINGS, random);
    const earlier = looks.map((look) => ({
      seen: look.seen,
      pinionIn: look.pose.pinionIn - pose.pinionIn,
      ringAway: look.pose.ringAway - pose.ringAway,
    }));
    const diagnosis = diagnose(bench.model, seen, { regime: 'unknown', film, earlier });
    const advice = adviseFrom(bench.model, seen, diagnosis, {
      hardware,
      present,
      limits: limits.backlash,
      film,
      recorded: null,
      looksBefore: looks.filter((look) => look.pose === pose).length,
    });
    if (advice.kind !== 'refused' && advice.lookFirst) {
      looks.push({ seen, pose });
      further++;
      continue;
    }
    refused ||= advice.kind === 'refused';
    if (advice.kind !== 'change' || !advice.change) break;
    const { fitment, move } = advice.change;
    const before = statedScore(outcomeAt(axle, pose), target);
    looks.push({ seen, pose });
    pose = { ...pose, pinionIn: pose.pinionIn + move.pinionIn, ringAway: pose.ringAway + move.ringAway };
    present = fitment;
    changes++;
    if (statedScore(outcomeAt(axle, pose), target) > before) worse++;
  }
  const final = outcomeAt(axle, pose);
  return {
    done: isDone(final, target),
    ...reach,
    turns: grants('turnsFreely', final, target) && grants('backlash', final, target),
    changes,
    worse,
    refused,
    further,
  };
};
