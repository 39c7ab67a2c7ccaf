import { useMemo } from 'react';
import { explainPinionShim, nearestTotal, pinionInFromShim } from '../../../sim/worker/assembly.ts';
import { StepButton } from '../../app/ui/controls.tsx';
import { MeasureField } from '../../app/ui/MeasureField.tsx';
import { type RulerMark, RulerSlider } from '../../app/ui/RulerSlider.tsx';
import { stepPinionShim } from '../../state/moves.ts';
import { isPosition, nextPosition, pinionShimPositions } from '../../state/positions.ts';
import { pinionShimRange } from '../../state/ranges.ts';
import { useSetup } from '../../state/setup.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { useText } from '../../text/useText.ts';
import { ControlBlock } from './ControlBlock.tsx';
import styles from './explore.module.css';
import { useAxle, useFineStep } from './useAxle.ts';
import { digitsFor, digitsToShow, SHIM_DIGITS, useLengths } from './useLengths.ts';

/** The pinion shim: step by real shims, slide, or type; and what it does to the pinion, in words. */
export function PinionControl() {
  const t = useText();
  const lengths = useLengths();
  const axle = useAxle();
  const fineStep = useFineStep();
  const shim = axle.pinionShim;
  const thickness = useShownSetup(({ setup }) => setup.fitment.pinionShim);
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
          onEnter={(pinionShim) => changeShim(pinionShim)}
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
          onPreview={previewShim}
          onCommit={commit}
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
    </ControlBlock>
  );
}

function changeShim(pinionShim: number): void {
  const { live, apply } = useSetup.getState();
  apply({ fitment: { ...live.fitment, pinionShim } });
}

function previewShim(pinionShim: number): void {
  const { live, preview } = useSetup.getState();
  preview({ fitment: { ...live.fitment, pinionShim } });
}

function commit(): void {
  useSetup.getState().commit();
}
