import { useEffect, useState } from 'react';
import { type Lengths, SHIM_DIGITS, useLengths } from '../../app/ui/useLengths.ts';
import { describePattern } from '../../flank/describePattern.ts';
import { axleOf } from '../../state/axles.ts';
import { type ShownMesh, useMesh } from '../../state/mesh.ts';
import type { Translate } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { verdictWords } from './BacklashPanel.tsx';
import { judgeBacklash } from './backlash.ts';

/** ms of rest before the words are said: a screen reader must not read out every step of a drag. */
const REST = 600;

/** The picture in words, said aloud whenever it has come to rest. */
export function PatternSummary() {
  const t = useText();
  const lengths = useLengths();
  const shown = useMesh((state) => state.shown);
  const [words, setWords] = useState('');
  useEffect(() => {
    if (shown === null) return;
    const timer = window.setTimeout(() => setWords(summaryOf(shown, t, lengths)), REST);
    return () => window.clearTimeout(timer);
  }, [shown, t, lengths]);
  return (
    <section className="visually-hidden" aria-label={t('explore.summary')}>
      <p aria-live="polite" aria-atomic="true">
        {words}
      </p>
    </section>
  );
}

function summaryOf(shown: ShownMesh, t: Translate, lengths: Lengths): string {
  const { limits } = axleOf(shown.axleId).axle;
  const reading = judgeBacklash(shown.result.backlash, limits.backlash);
  const backlash =
    reading.least === null
      ? []
      : [
          t('explore.summary.backlash', {
            amount: lengths.say(reading.least, SHIM_DIGITS),
            reads: limits.backlash.reads,
            verdict: verdictWords(reading, t, lengths),
          }),
        ];
  return [...describePattern(shown.result, t), ...backlash].join(' ');
}
