import { lazy, Suspense, useId, useMemo } from 'react';
import { explainPinionShim, nearestTotal, pinionInFromShim } from '../../../sim/worker/assembly.ts';
import { StepButton, Switch } from '../../app/ui/controls.tsx';
import { MeasureField } from '../../app/ui/MeasureField.tsx';
import { type RulerMark, RulerSlider } from '../../app/ui/RulerSlider.tsx';
import { digitsFor, digitsToShow, SHIM_DIGITS, useLengths } from '../../app/ui/useLengths.ts';
import { useBacklashLock } from '../../state/backlashLock.ts';
import { stepPinionShim } from '../../state/moves.ts';
import {
  commitPinionShim,
  previewPinionShim,
  setPinionShim,
  switchBacklashLock,
} from '../../state/pinionShim.ts';
import { isPosition, nextPosition, pinionShimPositions } from '../../state/positions.ts';
import { pinionShimRange } from '../../state/ranges.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { useWantedShim } from '../../state/wantedShim.ts';
import { useText } from '../../text/useText.ts';
import { ControlBlock } from './ControlBlock.tsx';
import styles from './explore.module.css';
import { useAxle, useFineStep } from './useAxle.ts';

/** The pinion shim: step by real shims, slide, or type; and what it does to the pinion, in words. */
export function PinionControl() {
  const t = useText();
  const lengths = useLengths();
  const axle = useAxle();
  const fineStep = useFineStep();
  const shim = axle.pinionShim;
  const fitted = useShownSetup(({ setup }) => setup.fitment.pinionShim);
  const wanted = useWantedShim((state) => state.mm);
  const thickness = wanted ?? fitted;
  const positions = useMemo(() => pinionShimPositions(axle, fineStep), [axle, fineStep]);
  const range = useMemo(() => pinionShimRange(axle), [axle]);
  const marks = useMemo<readonly RulerMark[]>(
    () => [
      { at: shim.fitted, kind: 'found' },
      { at: shim.design, kind: 'design' },
    ],
    [shim],
  );

  const digits = digitsFor(fineStep ?? shim.stock.step);
  const say = (mm: number) => lengths.say(mm, digitsToShow(digits, mm));
  const fromFound = explainPinionShim(shim.place, shim.fitted, thickness);
  const wayOfThicker = fromFound.thickerMovesPinion;
  const pinionIn = pinionInFromShim(shim, thickness);
  const stepAmount = (direction: 1 | -1): string | null => {
    const next = nextPosition(positions, thickness, direction);
    return next === null ? null : lengths.move(next - thickness);
  };
  const thinner = stepAmount(-1);
  const thicker = stepAmount(1);
  const offStock = fineStep === null && !isPosition(positions, thickness);

  return (
    <ControlBlock
      title={t('explore.pinion.title')}
      note={t(`explore.pinion.place.${shim.place}`)}
      aside={
        <MeasureField
          label={t('explore.pinion.field')}
          size="reading"
          text={lengths.number(thickness, digitsToShow(digits, thickness))}
          unit={lengths.unitText}
          read={(typed) => lengths.read(typed, range, SHIM_DIGITS)}
          onEnter={setPinionShim}
        />
      }
    >
      <div className={styles.stepRow}>
        <StepButton
          icon="minus"
          label={
            thinner === null
              ? t('explore.pinion.thinnerStop')
              : t('explore.pinion.thinner', { amount: thinner })
          }
          disabled={thinner === null}
          onPress={() => stepPinionShim(-1)}
        />
        <RulerSlider
          label={t('explore.pinion.slider')}
          positions={positions}
          value={thickness}
          valueText={
            Math.abs(pinionIn) < 1e-6
              ? t('explore.pinion.valueTextDesign', { thickness: say(thickness) })
              : t('explore.pinion.valueText', {
                  thickness: say(thickness),
                  amount: lengths.move(pinionIn),
                  way: pinionIn > 0 ? 'in' : 'out',
                })
          }
          marks={marks}
          leastText={t('explore.pinion.thinEnd', { way: wayOfThicker === 'in' ? 'out' : 'in' })}
          mostText={t('explore.pinion.thickEnd', { way: wayOfThicker })}
          onPreview={previewPinionShim}
          onCommit={commitPinionShim}
        />
        <StepButton
          icon="plus"
          label={
            thicker === null
              ? t('explore.pinion.thickerStop')
              : t('explore.pinion.thicker', { amount: thicker })
          }
          disabled={thicker === null}
          onPress={() => stepPinionShim(1)}
        />
      </div>
      <p className={styles.words}>
        {fromFound.change === 'same' || fromFound.pinionMoves === 'none'
          ? t('explore.pinion.same', { way: wayOfThicker })
          : t('explore.pinion.changed', {
              amount: lengths.move(fromFound.amount),
              change: fromFound.change,
              way: fromFound.pinionMoves,
            })}
        {offStock && <> {t('explore.stock.off', { nearest: say(nearestTotal(shim.stock, thickness)) })}</>}
      </p>
      <KeepBacklash />
    </ControlBlock>
  );
}

const LockWords = lazy(async () => ({ default: (await import('./LockWords.tsx')).LockWords }));

/** The lock: a change of the pinion shim moves the ring too, so that the reading stays. */
function KeepBacklash() {
  const t = useText();
  const words = useId();
  const on = useBacklashLock((state) => state.on);
  return (
    <div className={styles.lock} data-on={on ? '' : undefined}>
      <Switch on={on} onChange={switchBacklashLock} describedBy={words}>
        {t('explore.keepBacklash')}
      </Switch>
      <div className={styles.lockWords} id={words}>
        {on ? (
          <Suspense fallback={<p>{t('explore.keepBacklash.why')}</p>}>
            <LockWords />
          </Suspense>
        ) : (
          <p>{t('explore.keepBacklash.why')}</p>
        )}
      </div>
    </div>
  );
}
