import { type ReactNode, useDeferredValue, useMemo } from 'react';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import { useCompare } from '../../../state/compare.ts';
import { type ShownMesh, useMesh } from '../../../state/mesh.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../../state/preferences.ts';
import { useText } from '../../../text/useText.ts';
import { differenceRows, differenceSentences } from './differences.ts';
import { LeftPicker } from './LeftPicker.tsx';
import { SmallMap } from './SmallMap.tsx';
import styles from './sideBySide.module.css';

export interface SideBySideViewProps {
  /** both sets in three dimensions */
  readonly stage: ReactNode;
  /** why the left side has no answer, in words */
  readonly failure: string | null;
}

/** The present set-up on the right, something to hold it against on the left. */
export function SideBySideView({ stage, failure }: SideBySideViewProps) {
  const t = useText();
  // the live maps and readings first
  const left = useDeferredValue(useCompare((state) => state.shown));
  const right = useDeferredValue(useMesh((state) => state.shown));
  return (
    <section className={styles.view} aria-label={t('twin.region')}>
      <LeftPicker />
      {failure !== null && (
        <p className={styles.failure} role="status">
          {t('twin.failed', { reason: failure })}
        </p>
      )}
      <div className={styles.stage}>{stage}</div>
      {left === null || right === null ? (
        <p className={styles.waiting}>{t('twin.waiting')}</p>
      ) : (
        <Comparison left={left} right={right} />
      )}
    </section>
  );
}

function Comparison({ left, right }: { readonly left: ShownMesh; readonly right: ShownMesh }) {
  const t = useText();
  const lengths = useLengths();
  const compound = COMPOUND_COLOURS[usePreferences((state) => state.compound ?? 'yellow')];
  const sentences = useMemo(() => differenceSentences(left, right, lengths, t), [left, right, lengths, t]);
  const rows = useMemo(
    () => differenceRows(left.result, right.result, lengths, t),
    [left, right, lengths, t],
  );
  return (
    <>
      <section className={styles.words} aria-label={t('twin.words')}>
        <h3 className="visually-hidden">{t('twin.words')}</h3>
        <ul>
          {sentences.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </section>
      <div className={styles.maps}>
        {FLANK_ORDER.map((flank) => (
          <SmallMap key={flank} side="left" flank={flank} shown={left} compoundColour={compound} />
        ))}
        {FLANK_ORDER.map((flank) => (
          <SmallMap
            key={flank}
            side="right"
            flank={flank}
            shown={right}
            over={left.result}
            compoundColour={compound}
          />
        ))}
      </div>
      <p className={styles.mapKey}>{t('twin.map.key')}</p>
      <details className={styles.details}>
        <summary className={styles.summary}>{t('twin.table')}</summary>
        <div className={styles.scroller}>
          <table className={`${styles.table} numbers`}>
            <thead>
              <tr>
                <th scope="col">{t('twin.quantity')}</th>
                <th scope="col">{t('twin.left')}</th>
                <th scope="col">{t('twin.right')}</th>
                <th scope="col">{t('twin.change')}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.name}>
                  <th scope="row">{row.name}</th>
                  <td>{row.left}</td>
                  <td>{row.right}</td>
                  <td>{row.change}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </>
  );
}
