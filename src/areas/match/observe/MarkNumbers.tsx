import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { RulerSlider } from '../../../app/ui/RulerSlider.tsx';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import { type MarkShape, ovalMark, type PaintedMark, shapeOf } from '../../../state/paintedMark.ts';
import { useText } from '../../../text/useText.ts';
import styles from '../match.module.css';

const steps = (least: number, most: number): readonly number[] =>
  Array.from(
    { length: Math.round((most - least) / 0.05) + 1 },
    (_, k) => Math.round((least + k * 0.05) * 100) / 100,
  );

const POSITIONS: Readonly<Record<keyof MarkShape, readonly number[]>> = {
  toeHeel: steps(-1, 1),
  rootFace: steps(-1, 1),
  length: steps(0.05, 1),
  height: steps(0.05, 1),
  tilt: steps(-0.9, 0.9),
};
const NAMES = Object.keys(POSITIONS) as (keyof MarkShape)[];
const START: MarkShape = { toeHeel: 0, rootFace: 0, length: 0.5, height: 0.6, tilt: 0 };

export interface MarkNumbersProps {
  readonly marks: Readonly<Record<FlankName, PaintedMark | null>>;
  readonly onPreview: (flank: FlankName, mark: PaintedMark) => void;
  readonly onCommit: () => void;
}

/** The same marks as numbers: an oval of that middle and size takes the place of what was painted. */
export function MarkNumbers({ marks, onPreview, onCommit }: MarkNumbersProps) {
  const t = useText();
  return (
    <details className={styles.numbersBlock}>
      <summary className={styles.numbersHead}>{t('match.numbers.title')}</summary>
      <div className={styles.numbersGrid}>
        {FLANK_ORDER.map((flank) => {
          const mark = marks[flank];
          const shape = (mark === null ? null : shapeOf(mark)) ?? START;
          return (
            <fieldset key={flank}>
              <legend className={styles.numbersFlank}>{t(`flank.name.${flank}`)}</legend>
              {NAMES.map((name) => {
                const text = valueText(name, shape[name], t);
                return (
                  <div key={name} className={styles.numbersRow}>
                    <span aria-hidden="true">{t(`match.numbers.${name}`)}</span>
                    <span aria-hidden="true">{text}</span>
                    <RulerSlider
                      label={`${t(`flank.name.${flank}`)}: ${t(`match.numbers.${name}`)}`}
                      positions={POSITIONS[name]}
                      value={shape[name]}
                      valueText={text}
                      onPreview={(value) => onPreview(flank, ovalMark({ ...shape, [name]: value }))}
                      onCommit={onCommit}
                    />
                  </div>
                );
              })}
            </fieldset>
          );
        })}
      </div>
    </details>
  );
}

function valueText(name: keyof MarkShape, value: number, t: ReturnType<typeof useText>): string {
  const percent = Math.round(value * 100);
  const amount = Math.abs(percent);
  if (name === 'length' || name === 'height') return t('match.numbers.value.share', { amount });
  if (name === 'toeHeel') {
    return t('match.numbers.value.toeHeel', { percent, amount, end: percent < 0 ? 'toe' : 'heel' });
  }
  return t(`match.numbers.value.${name}`, { percent, amount, end: percent < 0 ? 'root' : 'face' });
}
