import { useEffect, useState } from 'react';
import type { LoadedGearSet, SolveResult } from '../../../../sim/worker/protocol.ts';
import { Sheet } from '../../../app/ui/Sheet.tsx';
import { COARSE_DIGITS, type Lengths, useLengths } from '../../../app/ui/useLengths.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import { diagnoseService } from '../../../state/answer.ts';
import { axleOf } from '../../../state/axles.ts';
import { useLook } from '../../../state/look.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../../state/preferences.ts';
import type { Translate } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import { failureReason } from '../answer/failureReason.ts';
import styles from './gallery.module.css';
import { MiniMap } from './MiniMap.tsx';
import { markOfResult } from './markOfResult.ts';
import { PATTERN_STATES, type PatternState, poseOfState } from './patternStates.ts';

export interface GallerySheetProps {
  readonly axleId: string;
  readonly loaded: LoadedGearSet;
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
}

type Solved =
  | { readonly kind: 'waiting' }
  | { readonly kind: 'failed'; readonly reason: string }
  | { readonly kind: 'solved'; readonly results: readonly SolveResult[] };

/** Solved patterns of this very axle to pick the likest from: a start that can be painted over. */
export function GallerySheet({ axleId, loaded, open, onOpenChange }: GallerySheetProps) {
  const t = useText();
  const lengths = useLengths();
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  const [solved, setSolved] = useState<Solved>({ kind: 'waiting' });
  const { axle } = axleOf(axleId);
  useEffect(() => {
    if (!open) return;
    let ended = false;
    setSolved({ kind: 'waiting' });
    const request = {
      gearSetId: axleId,
      definition: axle.gearset,
      film: axle.film_mm,
      poses: PATTERN_STATES.map(poseOfState),
    };
    void diagnoseService()
      .patterns(request)
      .then((outcome) => {
        if (ended) return;
        setSolved(
          outcome.ok
            ? { kind: 'solved', results: outcome.value }
            : { kind: 'failed', reason: failureReason(outcome.failure) },
        );
      });
    return () => {
      ended = true;
    };
  }, [open, axleId, axle]);

  const pick = (result: SolveResult) => {
    useLook.getState().change(axleId, {
      drive: markOfResult(result.drive, result.grid, result.film),
      coast: markOfResult(result.coast, result.grid, result.film),
    });
    onOpenChange(false);
  };
  return (
    <Sheet title={t('match.gallery.title')} wide open={open} onOpenChange={onOpenChange}>
      <p className={styles.why}>{t('match.gallery.why')}</p>
      {solved.kind === 'waiting' && <p role="status">{t('match.answer.working')}</p>}
      {solved.kind === 'failed' && <p role="alert">{solved.reason}</p>}
      {solved.kind === 'solved' && (
        <div className={styles.grid}>
          {solved.results.map((result, k) => (
            <button
              key={storyOf(PATTERN_STATES[k], lengths, t)}
              type="button"
              className={styles.card}
              onClick={() => pick(result)}
            >
              <span className={styles.story}>{storyOf(PATTERN_STATES[k], lengths, t)}</span>
              <span className={styles.pair}>
                {FLANK_ORDER.map((flank) => (
                  <span key={flank} className={styles.flank}>
                    <MiniMap
                      flank={flank}
                      outline={loaded.outline}
                      hand={axle.hand}
                      result={result}
                      compoundColour={COMPOUND_COLOURS[compound]}
                    />
                    <span>{t(`flank.name.${flank}`)}</span>
                  </span>
                ))}
              </span>
            </button>
          ))}
        </div>
      )}
    </Sheet>
  );
}

/** "Pinion 0.14 mm too deep, ring 0.10 mm too near" */
function storyOf({ pinionIn, ringAway }: PatternState, lengths: Lengths, t: Translate): string {
  return t('match.gallery.story', {
    pinion: t('match.gallery.pinion', {
      amount: lengths.amount(pinionIn, COARSE_DIGITS),
      way: pinionIn > 0 ? 'deep' : pinionIn < 0 ? 'shallow' : 'right',
    }),
    ring: t('match.gallery.ring', {
      amount: lengths.amount(ringAway, COARSE_DIGITS),
      way: ringAway > 0 ? 'far' : ringAway < 0 ? 'near' : 'right',
    }),
  });
}
