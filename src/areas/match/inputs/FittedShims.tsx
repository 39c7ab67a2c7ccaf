import type { Fitment, SideDevice } from '../../../../sim/assembly/hardware.ts';
import { Button } from '../../../app/ui/controls.tsx';
import { MeasureField } from '../../../app/ui/MeasureField.tsx';
import { readNotches } from '../../../app/ui/notches.ts';
import { digitsFor, digitsToShow, SHIM_DIGITS, useLengths } from '../../../app/ui/useLengths.ts';
import { axleOf } from '../../../state/axles.ts';
import { type Look, useLook } from '../../../state/look.ts';
import { pinionShimRange, sideRange } from '../../../state/ranges.ts';
import { useSetup } from '../../../state/setup.ts';
import { useText } from '../../../text/useText.ts';
import styles from './inputs.module.css';

/** The shims that were in the axle while the pattern was seen. */
export function FittedShims({ look }: { readonly look: Look }) {
  const t = useText();
  const lengths = useLengths();
  const { axle } = axleOf(look.axleId);
  const { fitment } = look;
  const change = (part: Partial<Fitment>) =>
    useLook.getState().change(look.axleId, { fitment: { ...fitment, ...part } });
  const shimDigits = digitsFor(axle.pinionShim.stock.step);
  const side = (name: 'ringSide' | 'oppositeSide', device: SideDevice) => (
    <div className={styles.row}>
      <span aria-hidden="true">{t(`match.fitted.${name}`)}</span>
      {device.kind === 'adjuster' ? (
        <MeasureField
          label={t(`match.fitted.${name}`)}
          text={String(fitment[name])}
          unit={t('explore.notches.unit')}
          read={(typed) => readNotches(typed, sideRange(device), false, t)}
          onEnter={(value) => change({ [name]: value })}
        />
      ) : (
        <MeasureField
          label={t(`match.fitted.${name}`)}
          text={lengths.number(fitment[name], digitsToShow(digitsFor(device.stock.step), fitment[name]))}
          unit={lengths.unitText}
          read={(typed) => lengths.read(typed, sideRange(device), SHIM_DIGITS)}
          onEnter={(value) => change({ [name]: value })}
        />
      )}
    </div>
  );
  return (
    <section className={styles.block} aria-label={t('match.fitted.title')}>
      <header className={styles.head}>
        <h3>{t('match.fitted.title')}</h3>
        <Button
          quiet
          onPress={() =>
            useLook.getState().change(look.axleId, { fitment: useSetup.getState().committed.fitment })
          }
        >
          {t('match.fitted.fromExplore')}
        </Button>
      </header>
      <div className={styles.rows}>
        <div className={styles.row}>
          <span aria-hidden="true">{t('match.fitted.pinion')}</span>
          <MeasureField
            label={t('match.fitted.pinion')}
            text={lengths.number(fitment.pinionShim, digitsToShow(shimDigits, fitment.pinionShim))}
            unit={lengths.unitText}
            read={(typed) => lengths.read(typed, pinionShimRange(axle), SHIM_DIGITS)}
            onEnter={(pinionShim) => change({ pinionShim })}
          />
        </div>
        {side('ringSide', axle.sides.ringSide)}
        {side('oppositeSide', axle.sides.oppositeSide)}
      </div>
    </section>
  );
}
