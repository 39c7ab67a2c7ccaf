import { useMemo } from 'react';
import { Button } from '../../app/ui/controls.tsx';
import { MeasureField } from '../../app/ui/MeasureField.tsx';
import { type RulerMark, RulerSlider } from '../../app/ui/RulerSlider.tsx';
import { COARSE_DIGITS, digitsToShow, numberMessage, useLengths } from '../../app/ui/useLengths.ts';
import { positionsOf } from '../../state/moves.ts';
import { usePreferences } from '../../state/preferences.ts';
import { OFFSET_ERROR_RANGE, SHAFT_ANGLE_ERROR_RANGE, within } from '../../state/ranges.ts';
import { useSetup } from '../../state/setup.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { useText } from '../../text/useText.ts';
import { formatDegrees, formatNumber } from '../../units/format.ts';
import { parseNumber } from '../../units/parse.ts';
import { ControlBlock } from './ControlBlock.tsx';
import styles from './explore.module.css';
import { useAxle } from './useAxle.ts';

const TRUE_MARK: readonly RulerMark[] = [{ at: 0, kind: 'design' }];

/** What shims cannot put right: the two errors of a bent or badly bored housing. */
export function HousingControl() {
  const t = useText();
  const offsetError = useShownSetup(({ setup }) => setup.offsetError);
  const shaftAngleError = useShownSetup(({ setup }) => setup.shaftAngleError);
  const isTrue = offsetError === 0 && shaftAngleError === 0;
  return (
    <div className={styles.housing}>
      <p className={styles.words}>{t('explore.housing.why')}</p>
      <OffsetError />
      <ShaftAngleError />
      {!isTrue && (
        <Button
          icon="reset"
          onPress={() => useSetup.getState().apply({ offsetError: 0, shaftAngleError: 0 })}
        >
          {t('explore.housing.clear')}
        </Button>
      )}
    </div>
  );
}

function OffsetError() {
  const t = useText();
  const lengths = useLengths();
  const axle = useAxle();
  const fine = usePreferences((state) => state.fine);
  const value = useShownSetup(({ setup }) => setup.offsetError);
  const positions = useMemo(() => positionsOf('offsetError', fine), [fine]);
  const digits = digitsToShow(COARSE_DIGITS, value);
  // an offset below the ring's centre is negative: more of it is the same sign
  const apart = value * Math.sign(axle.gearset.offset);
  const words = t('explore.housing.offset.words', {
    way: apart > 0 ? 'more' : apart < 0 ? 'less' : 'none',
    amount: lengths.amount(value, digits),
  });
  return (
    <>
      <ControlBlock title={t('explore.housing.offset')} line>
        <RulerSlider
          label={t('explore.housing.offset')}
          positions={positions}
          value={value}
          valueText={words}
          marks={TRUE_MARK}
          onPreview={(next) => useSetup.getState().preview({ offsetError: next })}
          onCommit={() => useSetup.getState().commit()}
        />
        <MeasureField
          label={t('explore.housing.offset.field')}
          text={lengths.number(value, digits)}
          unit={lengths.unitText}
          read={(typed) => lengths.read(typed, OFFSET_ERROR_RANGE, COARSE_DIGITS)}
          onEnter={(entered) => useSetup.getState().apply({ offsetError: entered })}
        />
      </ControlBlock>
      <p className={styles.words}>{words}</p>
    </>
  );
}

function ShaftAngleError() {
  const t = useText();
  const fine = usePreferences((state) => state.fine);
  const value = useShownSetup(({ setup }) => setup.shaftAngleError);
  const positions = useMemo(() => positionsOf('shaftAngleError', fine), [fine]);
  const decimals = digitsToShow(COARSE_DIGITS, value).mm;
  const words = t('explore.housing.angle.words', {
    way: value > 0 ? 'more' : value < 0 ? 'less' : 'none',
    amount: formatDegrees(Math.abs(value), { decimals }),
  });
  return (
    <>
      <ControlBlock title={t('explore.housing.angle')} line>
        <RulerSlider
          label={t('explore.housing.angle')}
          positions={positions}
          value={value}
          valueText={words}
          marks={TRUE_MARK}
          onPreview={(next) => useSetup.getState().preview({ shaftAngleError: next })}
          onCommit={() => useSetup.getState().commit()}
        />
        <MeasureField
          label={t('explore.housing.angle.field')}
          text={formatNumber(value, decimals)}
          unit="°"
          read={(typed) => {
            const parsed = parseNumber(typed.replace(/°\s*$/, ''));
            if (!parsed.ok) return { ok: false, message: numberMessage(parsed.reason, typed, t) };
            if (within(SHAFT_ANGLE_ERROR_RANGE, parsed.value)) return { ok: true, value: parsed.value };
            return {
              ok: false,
              message: t('explore.number.range', {
                typed: formatDegrees(parsed.value),
                least: formatDegrees(SHAFT_ANGLE_ERROR_RANGE.least),
                most: formatDegrees(SHAFT_ANGLE_ERROR_RANGE.most),
              }),
            };
          }}
          onEnter={(entered) => useSetup.getState().apply({ shaftAngleError: entered })}
        />
      </ControlBlock>
      <p className={styles.words}>{words}</p>
    </>
  );
}
