import { create } from 'zustand';
import { createDiagnoseService } from '../../sim/worker/diagnoseClient.ts';
import {
  CAREFUL,
  type DiagnoseService,
  type MatchAnswer,
  type MatchRequest,
  type Observation,
  ROUGH,
  type SeenMark,
} from '../../sim/worker/diagnoseProtocol.ts';
import type { WorkerFailure } from '../../sim/worker/protocol.ts';
import { axleOf } from './axles.ts';
import { type Look, lookAt, type RecordedLook, useLook } from './look.ts';
import { isBlank, type PaintedMark } from './paintedMark.ts';
import { useSetup } from './setup.ts';

export interface AnswerStore {
  /** the last answer, and the look it answers; null until there is one */
  readonly answered: { readonly look: Look; readonly answer: MatchAnswer } | null;
  /** another look is being worked on */
  readonly pending: boolean;
  /** why the present look has no answer */
  readonly failure: WorkerFailure | null;
  readonly reset: () => void;
}

const NOTHING_YET = { answered: null, pending: false, failure: null } as const;

export const useAnswer = create<AnswerStore>()((set) => ({ ...NOTHING_YET, reset: () => set(NOTHING_YET) }));

const seenMark = (mark: PaintedMark | null): SeenMark | null =>
  mark === null || isBlank(mark)
    ? null
    : { kind: 'mask', columns: mark.columns, rows: mark.rows, data: mark.data };

const observationOf = ({ drive, coast, readings, sureness }: RecordedLook): Observation => ({
  drive: seenMark(drive),
  coast: seenMark(coast),
  backlash: readings,
  uncertainty: sureness === 'careful' ? CAREFUL : ROUGH,
  film: null,
});

/** At least one flank: a dial reading alone says next to nothing. */
export const hasSomethingSeen = ({ drive, coast }: Pick<Look, 'drive' | 'coast'>): boolean =>
  [drive, coast].some((mark) => mark !== null && !isBlank(mark));

export function requestOf(look: Look): MatchRequest {
  const { axle } = axleOf(look.axleId);
  const { min, max, reads } = axle.limits.backlash;
  return {
    gearSetId: look.axleId,
    definition: axle.gearset,
    film: axle.film_mm,
    regime: look.cut,
    seen: observationOf(look),
    reads: look.manner,
    hardware: {
      hand: axle.hand,
      pinionShim: axle.pinionShim,
      sides: axle.sides,
      spacer: axle.spacer,
    },
    limits: { min, max, reads },
    present: look.fitment,
    earlier: look.earlier.map((one) => ({ seen: observationOf(one), fitted: one.fitment })),
    recorded: look.gears === 'used' && look.recorded !== null ? observationOf(look.recorded) : null,
  };
}

let service: DiagnoseService | null = null;

/** The diagnosing worker, started when first asked for. */
export function diagnoseService(): DiagnoseService {
  service ??= createDiagnoseService();
  return service;
}

/** ms of rest after a stroke before it is worked on: a second stroke often follows at once. */
const REST_MS = 120;
let following = false;

/** Keeps the answer at the present look, from the first call on. */
export function followLook(): void {
  if (following) return;
  following = true;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wanted: Look | null = null;

  const answer = async (look: Look): Promise<void> => {
    const outcome = await diagnoseService().match(requestOf(look));
    if (outcome === null || wanted !== look) return;
    useAnswer.setState(
      outcome.ok
        ? { answered: { look, answer: outcome.value }, pending: false, failure: null }
        : { pending: false, failure: outcome.failure },
    );
  };
  const look = () => lookAt(useLook.getState().looks, useSetup.getState().committed.axleId);
  const follow = () => {
    const present = look();
    if (wanted !== null && sameLook(wanted, present)) return;
    wanted = present;
    clearTimeout(timer);
    if (!hasSomethingSeen(present)) {
      useAnswer.setState(NOTHING_YET);
      return;
    }
    // what belongs to another axle says nothing about this one
    const { answered } = useAnswer.getState();
    useAnswer.setState({
      pending: true,
      failure: null,
      answered: answered?.look.axleId === present.axleId ? answered : null,
    });
    timer = setTimeout(() => void answer(present), REST_MS);
  };
  useLook.subscribe(({ looks }, before) => {
    if (looks !== before.looks) follow();
  });
  useSetup.subscribe(({ committed }, before) => {
    if (committed.axleId !== before.committed.axleId) follow();
  });
  follow();
}

/** A look that was never touched is made anew each time it is asked for. */
const sameLook = (a: Look, b: Look): boolean =>
  a === b || (a.axleId === b.axleId && !hasSomethingSeen(a) && !hasSomethingSeen(b));
