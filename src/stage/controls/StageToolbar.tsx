import { memo, type Ref, useId, useRef, useState } from 'react';
import type { FlankName } from '../../../sim/gearset/definition.ts';
import type { PlainTextKey } from '../../text/catalogue.ts';
import { useText } from '../../text/useText.ts';
import { STAGE_HOMES, type StageHome } from '../camera/homes.ts';
import styles from './controls.module.css';
import { RollWheel, type RollWheelHandle } from './RollWheel.tsx';

export const SPEEDS = { slow: 0.4, middle: 1, fast: 3 } as const;
export type Speed = keyof typeof SPEEDS;

interface SegmentsProps<T extends string> {
  readonly label: string;
  /** `short` is used where the stage is narrow */
  readonly options: readonly { readonly value: T; readonly text: string; readonly short?: string }[];
  readonly value: T;
  readonly onChoose: (value: T) => void;
}

/** One of a few in sight, on native radio buttons. */
function Segments<T extends string>({ label, options, value, onChoose }: SegmentsProps<T>) {
  const name = useId();
  return (
    <fieldset className={styles.segments}>
      <legend className="visually-hidden">{label}</legend>
      {options.map((option) => (
        <label key={option.value}>
          <input
            type="radio"
            name={name}
            checked={option.value === value}
            onChange={() => onChoose(option.value)}
            // a second press on the chosen home goes back to it
            onClick={() => option.value === value && onChoose(option.value)}
          />
          <span className={option.short === undefined ? undefined : styles.long}>{option.text}</span>
          {option.short !== undefined && <span className={styles.short}>{option.short}</span>}
        </label>
      ))}
    </fieldset>
  );
}

const HOME_KEYS = {
  whole: 'stage.home.whole',
  mesh: 'stage.home.mesh',
  drive: 'stage.home.drive',
  coast: 'stage.home.coast',
} as const satisfies Record<StageHome, PlainTextKey>;

const SHORT_KEYS = {
  whole: 'stage.home.whole.short',
  mesh: 'stage.home.mesh.short',
  drive: 'stage.home.drive.short',
  coast: 'stage.home.coast.short',
} as const satisfies Record<StageHome, PlainTextKey>;

const SPEED_KEYS = {
  slow: 'stage.speed.slow',
  middle: 'stage.speed.middle',
  fast: 'stage.speed.fast',
} as const satisfies Record<Speed, PlainTextKey>;

export interface StageToolbarProps {
  readonly home: StageHome;
  readonly onHome: (home: StageHome) => void;
  readonly playing: boolean;
  readonly onPlay: (playing: boolean) => void;
  readonly speed: Speed;
  readonly onSpeed: (speed: Speed) => void;
  readonly touching: FlankName;
  readonly onTouching: (flank: FlankName) => void;
  /** null where the pinion is not shown */
  readonly glass: boolean | null;
  readonly onGlass: (glass: boolean) => void;
  readonly labels: boolean;
  readonly onLabels: (labels: boolean) => void;
  readonly teeth: number;
  readonly wheel: Ref<RollWheelHandle>;
  readonly onTurn: (by: number) => void;
}

/** A new solution is no reason to look at it again. */
export const StageToolbar = memo(function StageToolbar(props: StageToolbarProps) {
  const t = useText();
  const { home, playing, speed, touching, glass, labels } = props;
  const [more, setMore] = useState(false);
  const moreButton = useRef<HTMLButtonElement>(null);
  const panelId = useId();
  return (
    <div className={styles.frame}>
      <div className={styles.bar}>
        <Segments
          label={t('stage.homes.label')}
          options={STAGE_HOMES.map((value) => ({
            value,
            text: t(HOME_KEYS[value]),
            short: t(SHORT_KEYS[value]),
          }))}
          value={home}
          onChoose={props.onHome}
        />
        {/* biome-ignore lint/a11y/useSemanticElements: a fieldset would show a frame and names itself by a legend */}
        <div className={`${styles.group} ${styles.roll}`} role="group" aria-label={t('stage.roll.label')}>
          <button
            type="button"
            className={styles.play}
            aria-label={t(playing ? 'stage.roll.stop' : 'stage.roll.start')}
            title={t(playing ? 'stage.roll.stop' : 'stage.roll.start')}
            onClick={() => props.onPlay(!playing)}
          >
            <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true" focusable="false">
              <path
                d={playing ? 'M7 5h3.5v14H7zM13.5 5H17v14h-3.5z' : 'M8 4.5 19 12 8 19.5z'}
                fill="currentColor"
              />
            </svg>
          </button>
          <RollWheel ref={props.wheel} teeth={props.teeth} onTurn={props.onTurn} />
        </div>
        <button
          ref={moreButton}
          type="button"
          className={styles.more}
          aria-expanded={more}
          aria-controls={panelId}
          onClick={() => setMore(!more)}
        >
          {t('stage.more')}
        </button>
        {/* biome-ignore lint/a11y/useSemanticElements: as above */}
        <div
          id={panelId}
          className={styles.panel}
          data-open={more}
          role="group"
          aria-label={t('stage.more.label')}
          onKeyDown={(event) => {
            if (event.key !== 'Escape' || !more) return;
            event.stopPropagation();
            setMore(false);
            moreButton.current?.focus();
          }}
        >
          <Segments
            label={t('stage.touching.label')}
            options={[
              { value: 'drive', text: t('stage.touching.drive') },
              { value: 'coast', text: t('stage.touching.coast') },
            ]}
            value={touching}
            onChoose={props.onTouching}
          />
          <label className={styles.select}>
            <span className="visually-hidden">{t('stage.speed.label')}</span>
            <select value={speed} onChange={(event) => props.onSpeed(event.target.value as Speed)}>
              {(Object.keys(SPEEDS) as Speed[]).map((value) => (
                <option key={value} value={value}>
                  {t(SPEED_KEYS[value])}
                </option>
              ))}
            </select>
          </label>
          <button
            type="button"
            className={styles.toggle}
            aria-pressed={glass === true}
            disabled={glass === null}
            onClick={() => props.onGlass(!glass)}
          >
            {t('stage.show.pinion')}
          </button>
          <button
            type="button"
            className={styles.toggle}
            aria-pressed={labels}
            onClick={() => props.onLabels(!labels)}
          >
            {t('stage.show.labels')}
          </button>
        </div>
      </div>
    </div>
  );
});
