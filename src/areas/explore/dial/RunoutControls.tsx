import { useMemo } from 'react';
import { Icon } from '../../../app/ui/Icon.tsx';
import { MeasureField } from '../../../app/ui/MeasureField.tsx';
import { type RulerMark, RulerSlider } from '../../../app/ui/RulerSlider.tsx';
import {
  COARSE_DIGITS,
  digitsToShow,
  numberMessage,
  SHIM_DIGITS,
  useLengths,
} from '../../../app/ui/useLengths.ts';
import { RUNOUT_AT_RANGE, RUNOUT_RANGE, useDial } from '../../../state/dial.ts';
import { clamp, within } from '../../../state/ranges.ts';
import { useText } from '../../../text/useText.ts';
import { formatNumber } from '../../../units/format.ts';
import { parseNumber } from '../../../units/parse.ts';
import styles from './dial.module.css';
import type { DialView } from './useDialView.ts';

const steps = (least: number, most: number, step: number): readonly number[] =>
  Array.from({ length: Math.round((most - least) / step) + 1 }, (_, index) =>
    Number((least + index * step).toFixed(4)),
  );

const FULL = steps(RUNOUT_RANGE.least, RUNOUT_RANGE.most, 0.005);
const DEGREES = steps(RUNOUT_AT_RANGE.least, RUNOUT_AT_RANGE.most, 5);

const ignoreCommit = () => {};

/** How far the ring is from running true: how much, and where it stands farthest out. */
export function RunoutControls({ view }: { readonly view: DialView }) {
  const t = useText();
  const lengths = useLengths();
  const runout = useDial((state) => state.runout);
  const { setRunout } = useDial.getState();
  const { max } = view.axle.limits.ringRunout;
  const marks = useMemo<readonly RulerMark[]>(() => [{ at: max, kind: 'found' }], [max]);
  const digits = digitsToShow(COARSE_DIGITS, runout.full, 3);
  const over = runout.full - max;
  const { ringTeeth } = view.axle.gearset;
  const farthest = Math.round((runout.farthestAt / 360) * ringTeeth) % ringTeeth;
  const degrees = t('dial.runout.at.say', { degrees: runout.farthestAt });
  return (
    <section className={styles.runout} aria-label={t('dial.runout.title')}>
      <div className={styles.runoutPart}>
        <div className={styles.runoutHead}>
          <h3 className={styles.title}>{t('dial.runout.title')}</h3>
          <MeasureField
            label={t('dial.runout.full.field')}
            text={lengths.number(runout.full, digits)}
            unit={lengths.unitText}
            read={(typed) => lengths.read(typed, RUNOUT_RANGE, SHIM_DIGITS)}
            onEnter={(full) => setRunout({ full })}
          />
        </div>
        <RulerSlider
          label={t('dial.runout.full')}
          positions={FULL}
          value={runout.full}
          valueText={lengths.say(runout.full, digits)}
          marks={marks}
          onPreview={(full) => setRunout({ full })}
          onCommit={ignoreCommit}
        />
        <p className={styles.note} data-caution={over > 1e-9 ? '' : undefined}>
          {over > 1e-9 && <Icon name="caution" size={18} />}
          <span>
            {over > 1e-9
              ? t('dial.runout.over', {
                  amount: lengths.amount(over, SHIM_DIGITS),
                  most: lengths.say(max, COARSE_DIGITS),
                })
              : t('dial.runout.within', { most: lengths.say(max, COARSE_DIGITS) })}
          </span>
        </p>
      </div>
      <div className={styles.runoutPart}>
        <div className={styles.runoutHead}>
          <h3 className={styles.title}>{t('dial.runout.at')}</h3>
          <MeasureField
            label={t('dial.runout.at.field')}
            text={formatNumber(runout.farthestAt, 0)}
            unit={t('dial.runout.degrees')}
            read={(typed) => {
              const parsed = parseNumber(typed.replace(/°\s*$/u, ''));
              if (!parsed.ok) return { ok: false, message: numberMessage(parsed.reason, typed, t) };
              const { least, most } = RUNOUT_AT_RANGE;
              if (within(RUNOUT_AT_RANGE, parsed.value))
                return { ok: true, value: clamp(RUNOUT_AT_RANGE, parsed.value) };
              return {
                ok: false,
                message: t('explore.number.range', {
                  typed: `${formatNumber(parsed.value, 0)}°`,
                  least: `${least}°`,
                  most: `${most}°`,
                }),
              };
            }}
            onEnter={(farthestAt) => setRunout({ farthestAt })}
          />
        </div>
        <RulerSlider
          label={t('dial.runout.at')}
          positions={DEGREES}
          value={runout.farthestAt}
          valueText={degrees}
          onPreview={(farthestAt) => setRunout({ farthestAt })}
          onCommit={ignoreCommit}
        />
        <p className={styles.note}>
          {runout.full > 0 ? t('dial.runout.at.tooth', { tooth: farthest + 1 }) : t('dial.runout.none')}
        </p>
      </div>
    </section>
  );
}
