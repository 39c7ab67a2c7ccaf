import type { SideExplanation, SidesExplanation } from '../../../sim/assembly/explain.ts';
import { sayNotches } from '../../app/ui/notches.ts';
import { type Lengths, useLengths } from '../../app/ui/useLengths.ts';
import type { Translate } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import styles from './explore.module.css';

export interface RingWordsProps {
  readonly explanation: SidesExplanation;
  /** what one side gives the other gets */
  readonly totalKept: boolean;
}

/** What the sides do to the ring and to the bearings, against what was found. */
export function RingWords({ explanation, totalKept }: RingWordsProps) {
  const t = useText();
  const lengths = useLengths();
  return (
    <p className={styles.words}>
      {ringSentences(explanation, t, lengths).join(' ')}
      {!totalKept && <> {t('explore.sides.totalFree')}</>}
    </p>
  );
}

function ringSentences(explanation: SidesExplanation, t: Translate, lengths: Lengths): readonly string[] {
  const { ringSide, oppositeSide, ringMoves, ringTravel, preload, preloadAmount } = explanation;
  const amount = lengths.move(ringTravel);
  const bothAdjusters = ringSide.kind === 'adjuster' && oppositeSide.kind === 'adjuster';
  const untouched = ringMoves === 'none' && preload === 'same';
  if (untouched) return [t(bothAdjusters ? 'explore.sides.sameAdjusters' : 'explore.sides.same')];

  const total =
    preload === 'same'
      ? t('explore.sides.totalKept')
      : t('explore.sides.totalChanged', {
          amount: lengths.move(preloadAmount),
          change: preload,
        });
  if (ringMoves === 'none') return [t('explore.sides.ringStays'), total];
  const unlike = ringSide.kind === 'adjuster' || oppositeSide.kind === 'adjuster';
  if (unlike) {
    const moved = t('explore.sides.movedAdjusters', {
      ring: sideWords(ringSide, t, lengths),
      opposite: sideWords(oppositeSide, t, lengths),
      way: ringMoves,
      amount,
    });
    return [moved, total];
  }
  const transferred = Math.abs(ringSide.travel - oppositeSide.travel) < 1e-6;
  return [
    t(transferred ? 'explore.sides.moved' : 'explore.sides.ringOnly', { way: ringMoves, amount }),
    total,
  ];
}

export function sideWords(side: SideExplanation, t: Translate, lengths: Lengths): string {
  if (side.change === 'same') return t('explore.sides.notchesStay');
  const inward = side.change === 'thicker';
  if (side.kind === 'adjuster') {
    return t(inward ? 'explore.sides.adjusterIn' : 'explore.sides.adjusterOut', {
      amount: sayNotches(side.amount, t),
    });
  }
  return t(inward ? 'explore.sides.shimThicker' : 'explore.sides.shimThinner', {
    amount: lengths.move(side.amount),
  });
}
