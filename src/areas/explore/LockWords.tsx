import type { AxleDefinition } from '../../../models/axle.ts';
import type { SideExplanation } from '../../../sim/assembly/explain.ts';
import type { Fitment } from '../../../sim/assembly/hardware.ts';
import { explainSides, fineness, ringAwayFromSides } from '../../../sim/worker/assembly.ts';
import type { BacklashReport } from '../../../sim/worker/protocol.ts';
import { type Lengths, SHIM_DIGITS, useLengths } from '../../app/ui/useLengths.ts';
import { type Held, heldFor, useBacklashLock } from '../../state/backlashLock.ts';
import { useMesh } from '../../state/mesh.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { moves as texts } from '../../text/en/moves.ts';
import { addTexts, type Translate } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { sideWords } from './RingWords.tsx';
import { useAxle } from './useAxle.ts';

addTexts(texts);

/** What the backlash lock did to the sides, and what the dial reads for it. */
export function LockWords() {
  const t = useText();
  const lengths = useLengths();
  const axle = useAxle();
  const fitment = useShownSetup(({ setup }) => setup.fitment);
  const setup = useShownSetup((state) => state.setup);
  const failed = useBacklashLock((state) => state.failed);
  // read anew when the reading comes to be known
  const known = useBacklashLock((state) => state.held);
  const report = useMesh((state) => state.shown?.result.backlash ?? null);
  const held = heldFor(setup) ?? known;
  return (
    <p>
      {failed
        ? t('moves.lock.failed')
        : held === null || report === null
          ? t('moves.lock.waiting')
          : lockSentences(axle, held, fitment, report, t, lengths).join(' ')}
    </p>
  );
}

/** mm: below this the ring stands where it was wanted */
const THERE = 2e-4;

export function lockSentences(
  axle: AxleDefinition,
  { reading, from, ringAway }: Held,
  fitment: Fitment,
  report: BacklashReport,
  t: Translate,
  lengths: Lengths,
): readonly string[] {
  if (reading === null || report.normal === null) return [t('moves.lock.noReading')];
  // said the way this axle's limits are read; both ways are the same play
  const tangential = axle.limits.backlash.reads === 'tangential' && report.tangential !== null;
  const factor = tangential && report.normal !== 0 ? (report.tangential ?? 0) / report.normal : 1;
  const say = (mm: number): string => lengths.say(mm * factor, SHIM_DIGITS);
  if (ringAway === null && fitment.pinionShim === from.pinionShim) {
    return [t('moves.lock.reading', { reading: say(reading) })];
  }
  const missed = Math.abs(ringAwayFromSides(axle.sides, fitment) - (ringAway ?? 0));
  const off = report.normal - reading;
  const { ringSide, oppositeSide } = axle.sides;
  const step = Math.max(fineness(ringSide), fineness(oppositeSide));
  const words = {
    reading: say(report.normal),
    amount: lengths.amount(off * factor, SHIM_DIGITS),
    change: off > 0 ? ('more' as const) : ('less' as const),
  };
  const readingWords =
    ringAway === null || missed < THERE
      ? t('moves.lock.kept', words)
      : missed > step
        ? t('moves.lock.offReach', words)
        : t('moves.lock.offStock', {
            ...words,
            part: ringSide.kind === 'adjuster' && oppositeSide.kind === 'adjuster' ? 'notch' : 'shim',
          });
  return [ringSentence(axle, from, fitment, t, lengths), readingWords];
}

function ringSentence(
  axle: AxleDefinition,
  from: Fitment,
  to: Fitment,
  t: Translate,
  lengths: Lengths,
): string {
  const { ringSide, oppositeSide, ringMoves, ringTravel } = explainSides(axle, from, to);
  if (ringMoves === 'none') return t('moves.lock.ringStays');
  const say = (side: SideExplanation): string =>
    side.change === 'same' ? t('moves.stays') : sideWords(side, t, lengths);
  const amount = lengths.move(ringTravel);
  const way = ringMoves;
  const bothAdjusters = ringSide.kind === 'adjuster' && oppositeSide.kind === 'adjuster';
  const alike = Math.abs(ringSide.amount - oppositeSide.amount) < 1e-6;
  const how =
    bothAdjusters && alike
      ? t('moves.lock.notches', { count: Number(ringSide.amount.toFixed(2)), way })
      : !bothAdjusters && ringSide.kind !== 'adjuster' && oppositeSide.kind !== 'adjuster' && alike
        ? t('moves.lock.shims', { amount, way })
        : t('moves.lock.unlike', {
            ring: say(ringSide),
            opposite: say(oppositeSide),
          });
  return t('moves.lock.ring', { amount, way, how });
}
