import { useEffect, useRef, useSyncExternalStore } from 'react';
import { Choice } from '../../../app/ui/controls.tsx';
import { Icon } from '../../../app/ui/Icon.tsx';
import { COARSE_DIGITS, type Digits, useLengths } from '../../../app/ui/useLengths.ts';
import { useDial } from '../../../state/dial.ts';
import type { Rock } from '../../../state/rock.ts';
import { useText } from '../../../text/useText.ts';
import { dialScale } from '../../../units/dialScale.ts';
import { mmFrom } from '../../../units/length.ts';
import { DialFace, type DialFaceHandle } from './DialFace.tsx';
import styles from './dial.module.css';
import type { DialView } from './useDialView.ts';

/** A dial is read between its lines. */
export const READING_DIGITS: Digits = { mm: 3, in: 4 };
const HOLDS = ['square', 'tangential'] as const;

/** The dial, how it is held, and what rocks the ring. */
export function DialReading({ view, rock }: { readonly view: DialView; readonly rock: Rock }) {
  const t = useText();
  const lengths = useLengths();
  const scale = dialScale(lengths.unit);
  const { play, direction, axle } = view;
  const { backlash: limits } = axle.limits;
  const asRead = direction === limits.reads;
  const reading = typeof play === 'string' ? 0 : play.reading;
  const turn = lengths.say(mmFrom(scale.unit, scale.division * scale.lines), { mm: 0, in: 3 });
  const division = lengths.say(mmFrom(scale.unit, scale.division), { mm: 2, in: 4 });
  const label = [
    t('dial.face.label', { division, turn }),
    asRead
      ? t('dial.face.limits', {
          least: lengths.number(limits.min, COARSE_DIGITS),
          most: lengths.say(limits.max, COARSE_DIGITS),
        })
      : '',
  ].join(' ');
  const face = useRef<DialFaceHandle>(null);
  const output = useRef<HTMLOutputElement>(null);
  const slider = useRef<HTMLInputElement>(null);

  useEffect(() => {
    const show = () => {
      const out = rock.share * reading;
      face.current?.show(out);
      const words = lengths.say(out, READING_DIGITS);
      if (output.current !== null) output.current.textContent = words;
      const input = slider.current;
      if (input === null) return;
      input.value = String(Math.round(rock.share * 100));
      // while it rocks by itself nobody can follow it by ear
      if (rock.rocking) return;
      const where = rock.share === 0 ? 'drive' : rock.share === 1 ? 'coast' : 'between';
      input.setAttribute('aria-valuetext', t('dial.rock.at', { where, reading: words }));
    };
    show();
    return rock.subscribe(show);
  }, [rock, reading, lengths, t]);

  return (
    <section className={`${styles.reading} fades`} aria-label={t('dial.face.region')}>
      <div className={styles.faceFrame}>
        <DialFace
          ref={face}
          scale={scale}
          limits={asRead ? limits : null}
          label={label}
          division={division}
        />
      </div>
      <div className={styles.readingHead}>
        <output
          ref={output}
          className={`${styles.figure} numbers`}
          aria-label={t('dial.reading')}
          aria-live="off"
        />
        <RockButton rock={rock} disabled={typeof play === 'string'} />
      </div>
      <div className={styles.rocker}>
        <input
          ref={slider}
          type="range"
          className={styles.slider}
          min={0}
          max={100}
          step={1}
          defaultValue={0}
          disabled={typeof play === 'string'}
          aria-label={t('dial.rock.hand')}
          onInput={(event) => rock.hold(Number(event.currentTarget.value) / 100)}
        />
        <div className={styles.rockEnds} aria-hidden="true">
          <span>{t('dial.rock.drive')}</span>
          <span>{t('dial.rock.coast')}</span>
        </div>
      </div>
      <p className={styles.playWords} role="status">
        {typeof play === 'string'
          ? t(`dial.play.${play}`)
          : t(`dial.play.${direction}`, { amount: lengths.say(play.reading, READING_DIGITS) })}
      </p>
      <Choice
        label={t('dial.hold.label')}
        name="dial-hold"
        options={HOLDS.map((value) => ({ value, text: t(`dial.hold.${value}`) }))}
        value={direction}
        onChoose={useDial.getState().hold}
      />
      <HoldWords view={view} />
    </section>
  );
}

function RockButton({ rock, disabled }: { readonly rock: Rock; readonly disabled: boolean }) {
  const t = useText();
  const rocking = useSyncExternalStore(
    (changed) => rock.subscribe(changed),
    () => rock.rocking,
  );
  return (
    <button
      type="button"
      className={styles.rock}
      disabled={disabled}
      aria-keyshortcuts="J"
      title={t('dial.rock.key')}
      onClick={() => rock.toggle()}
    >
      <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true" focusable="false">
        <path
          d={rocking ? 'M7 7h10v10H7z' : 'M4 15a9 9 0 0 1 16 0M4 15v-5M4 15h5M20 15v-5M20 15h-5'}
          fill={rocking ? 'currentColor' : 'none'}
          stroke="currentColor"
          strokeWidth="2"
          strokeLinecap="round"
          strokeLinejoin="round"
        />
      </svg>
      {t(rocking ? 'dial.rock.stop' : 'dial.rock.start')}
    </button>
  );
}

/** What holding the dial the other way does to the reading. */
function HoldWords({ view }: { readonly view: DialView }) {
  const t = useText();
  const { reads } = view.axle.limits.backlash;
  const { normal, tangential } = view.result.backlash;
  if (view.direction === reads) return <p className={styles.note}>{t('dial.hold.right')}</p>;
  if (normal === null || tangential === null || Math.abs(normal) < 1e-4) return null;
  const ratio = reads === 'square' ? tangential / normal : normal / tangential;
  return (
    <p className={styles.note} data-caution="">
      <Icon name="caution" size={18} />
      <span>
        {t('dial.hold.otherwise', {
          reads,
          percent: Math.round(Math.abs(ratio - 1) * 100),
          change: ratio > 1 ? 'more' : 'less',
        })}
      </span>
    </p>
  );
}
