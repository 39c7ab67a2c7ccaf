import type { FlankName } from '../../../sim/gearset/definition.ts';
import { useLengths } from '../../app/ui/useLengths.ts';
import { ArrowSample } from '../../flank/ArrowLayer.tsx';
import { axleOf } from '../../state/axles.ts';
import { useMesh } from '../../state/mesh.ts';
import { usePatchMoves } from '../../state/patchMoves.ts';
import { moves as texts } from '../../text/en/moves.ts';
import { addTexts } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { drawnMoves } from './drawnMoves.ts';
import styles from './mapTools.module.css';
import { shortMoveWords, stepWords } from './moveWords.ts';

addTexts(texts);

/** The arrows of one map in words. While the mark moves the last ones stay, dimmed. */
export function MoveKey({ flank }: { readonly flank: FlankName }) {
  const t = useText();
  const lengths = useLengths();
  const shown = usePatchMoves((state) => state.shown);
  const failed = usePatchMoves((state) => state.failed);
  const atRest = useMesh((state) => state.shown === shown?.of);
  const name = t('moves.arrows.name', { flank: t(`flank.name.${flank}`) });
  if (failed || shown === null) {
    return (
      <p className={styles.moveWords} role={failed ? 'status' : undefined}>
        {t(failed ? 'moves.arrows.failed' : 'moves.arrows.waiting')}
      </p>
    );
  }
  const { centre, moves } = drawnMoves(shown).flanks[flank];
  if (centre === null) return <p className={styles.moveWords}>{t('moves.arrows.noMark')}</p>;
  const { offset } = axleOf(shown.of.axleId).axle.gearset;
  return (
    <div className={styles.moveWords} data-stale={atRest ? undefined : ''} aria-busy={!atRest}>
      <ul className={styles.moveList} aria-label={name}>
        {shown.list.map((one) => {
          const found = moves.find((move) => move.name === one.adjustment.name);
          return (
            <li key={one.adjustment.name} data-adjustment={one.adjustment.name}>
              <ArrowSample name={one.adjustment.name} />
              <span>
                {t('moves.line', {
                  step: stepWords(one, offset, t, lengths),
                  move: found === undefined ? t('moves.arrows.noMark') : shortMoveWords(found.move, t),
                })}
              </span>
            </li>
          );
        })}
      </ul>
    </div>
  );
}

/** How many times as long as the steps the arrows of both maps are drawn; stands by what switches them on. */
export function ArrowTimes({ className }: { readonly className: string | undefined }) {
  const t = useText();
  const shown = usePatchMoves((state) => state.shown);
  if (shown === null) return null;
  const times = String(drawnMoves(shown).times);
  return (
    <p className={className}>
      <span className="visually-hidden">{t('moves.arrows.times', { times })}</span>
      <span aria-hidden="true">{t('moves.arrows.times.short', { times })}</span>
    </p>
  );
}
