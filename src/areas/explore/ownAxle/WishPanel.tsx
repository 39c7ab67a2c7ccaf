import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { Button } from '../../../app/ui/controls.tsx';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { useText } from '../../../text/useText.ts';
import styles from './pattern.module.css';
import { dropWish, takeNearest, usePatternWish } from './patternWish.ts';
import { refusalWords, wishWords } from './wishWords.ts';

/** What is wanted of one flank's mark and what came of it. */
export function WishPanel({ flank }: { readonly flank: FlankName }) {
  const t = useText();
  const { wanted, asked, asking, refusal, stopped, nearest } = usePatternWish((state) => state[flank]);
  const entries = useAxleDrafts((state) => openDraft(state)?.entries);
  return (
    <div
      className={styles.panel}
      role="status"
      data-wish={flank}
      data-empty={wanted === null ? '' : undefined}
    >
      {wanted !== null && entries !== undefined && (
        <>
          <p>
            {t('ownAxle.p.wanted', { words: wishWords(wanted, asked, t) })}{' '}
            {asking && <span className={styles.soft}>{t('ownAxle.p.asking')}</span>}
          </p>
          {refusal !== null && <p className={styles.refused}>{refusalWords(refusal, entries, t)}</p>}
          {stopped !== null && (
            <p className={styles.refused}>{t('app.failure.internal', { message: stopped })}</p>
          )}
          {(refusal !== null || stopped !== null) && (
            <div className={styles.actions}>
              {refusal?.kind === 'wish' && nearest !== null && (
                <Button onPress={() => takeNearest(flank)}>{t('ownAxle.p.takeNearest')}</Button>
              )}
              <Button quiet onPress={() => dropWish(flank)}>
                {t('ownAxle.p.drop')}
              </Button>
            </div>
          )}
        </>
      )}
    </div>
  );
}
