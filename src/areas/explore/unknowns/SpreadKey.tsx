import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { Icon } from '../../../app/ui/Icon.tsx';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { ArrowSample } from '../../../flank/ArrowLayer.tsx';
import { axleOf } from '../../../state/axles.ts';
import { useMesh } from '../../../state/mesh.ts';
import { useSpread } from '../../../state/spread.ts';
import { moves } from '../../../text/en/moves.ts';
import { spread as texts } from '../../../text/en/spread.ts';
import { addTexts } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import { stepWords } from '../moveWords.ts';
import styles from './spread.module.css';
import { bandWords, wayWords } from './spreadWords.ts';

addTexts(moves);
addTexts(texts);

/** What of one map is robust and what is not, in words. */
export function SpreadKey({ flank }: { readonly flank: FlankName }) {
  const t = useText();
  const lengths = useLengths();
  const { shown, running, stopped, failed } = useSpread();
  const atRest = useMesh((state) => state.shown === shown?.of);
  const name = t('spread.name', { flank: t(`flank.name.${flank}`) });
  if (shown === null) {
    return (
      <section className={styles.words} aria-label={name}>
        <p role={failed ? 'status' : undefined}>{t(failed ? 'spread.failed' : 'spread.waiting')}</p>
      </section>
    );
  }
  const { spread, adjustments } = shown;
  const mark = spread[flank];
  const { offset } = axleOf(shown.of.axleId).axle.gearset;
  return (
    <section
      className={styles.words}
      aria-label={name}
      data-stale={atRest ? undefined : ''}
      aria-busy={running}
    >
      <p>
        {Number.isFinite(mark.toeHeel.median) ? bandWords(mark, t) : t('spread.noMarks')}{' '}
        {mark.unmarked > 0 && t('spread.unmarked', { count: mark.unmarked, made: spread.made })}
      </p>
      <ul className={styles.list}>
        {adjustments.map((adjustment, step) => {
          const { robust, words } = wayWords(spread, step, flank, t);
          return (
            <li key={adjustment.name} data-robust={robust} data-adjustment={adjustment.name}>
              <ArrowSample name={adjustment.name} />
              <span>
                <Icon name={robust ? 'check' : 'caution'} size={15} />{' '}
                {t('spread.line', {
                  step: stepWords(
                    { adjustment, backlashKept: false, moves: { drive: null, coast: null, dial: null } },
                    offset,
                    t,
                    lengths,
                  ),
                  ways: words,
                })}
              </span>
            </li>
          );
        })}
      </ul>
      {flank === 'drive' && <SpreadFoot running={running} stopped={stopped} />}
    </section>
  );
}

/** How far it is, what could not be made, and what was varied. Once, under the first map. */
function SpreadFoot({ running, stopped }: { readonly running: boolean; readonly stopped: boolean }) {
  const t = useText();
  const shown = useSpread((state) => state.shown);
  if (shown === null) return null;
  const { spread, tried, total } = shown;
  const unmade = tried - spread.made;
  return (
    <div className={styles.foot}>
      <p role="status">
        {t(running ? 'spread.progress' : stopped ? 'spread.stopped' : 'spread.done', { tried, total })}{' '}
        {unmade > 0 && t('spread.unmade', { count: unmade })} {t('spread.varied')}
      </p>
      {running && (
        <button type="button" className={styles.stop} onClick={useSpread.getState().stop}>
          {t('spread.stop')}
        </button>
      )}
    </div>
  );
}
