import { useMemo } from 'react';
import type { SideDevice, Sides } from '../../../sim/assembly/hardware.ts';
import {
  explainSides,
  fittedAtDesign,
  fittedNow,
  ringAwayFromSides,
  settingForPush,
  sidePush,
} from '../../../sim/worker/assembly.ts';
import { StepButton, ToggleButton } from '../../app/ui/controls.tsx';
import { MeasureField } from '../../app/ui/MeasureField.tsx';
import { readNotches, sayNotches } from '../../app/ui/notches.ts';
import { nearestIndex, type RulerMark, RulerSlider } from '../../app/ui/RulerSlider.tsx';
import { type Digits, digitsFor, digitsToShow, SHIM_DIGITS, useLengths } from '../../app/ui/useLengths.ts';
import { stepRing } from '../../state/moves.ts';
import { nextPosition, preloadToHold, ringPositions } from '../../state/positions.ts';
import { usePreloadLock } from '../../state/preloadLock.ts';
import { sideRange } from '../../state/ranges.ts';
import { useSetup } from '../../state/setup.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { useText } from '../../text/useText.ts';
import { ControlBlock } from './ControlBlock.tsx';
import styles from './explore.module.css';
import { RingWords } from './RingWords.tsx';
import { useAxle, useFineStep } from './useAxle.ts';

type SideName = keyof Sides;

/** Moves shim thickness (or adjuster notches) from one side to the other, the total kept unless that is switched off. */
export function SidesControl() {
  const t = useText();
  const lengths = useLengths();
  const axle = useAxle();
  const fineStep = useFineStep();
  // not the whole fitment: a drag of the pinion shim leaves the sides alone
  const ringSide = useShownSetup(({ setup }) => setup.fitment.ringSide);
  const oppositeSide = useShownSetup(({ setup }) => setup.fitment.oppositeSide);
  const found = fittedNow(axle);
  const fitment = { ...found, ringSide, oppositeSide };
  const keepTotal = usePreloadLock((state) => state.on);
  const { sides } = axle;
  const preload = preloadToHold(axle, found, fitment);
  const places = useMemo(() => ringPositions(sides, preload, fineStep), [sides, preload, fineStep]);
  const positions = useMemo(() => places.map((place) => place.ringIn), [places]);
  const ringIn = -ringAwayFromSides(sides, fitment);
  const marks = useMemo<readonly RulerMark[]>(
    () => [
      { at: -ringAwayFromSides(axle.sides, fittedNow(axle)), kind: 'found' },
      { at: -ringAwayFromSides(axle.sides, fittedAtDesign(axle)), kind: 'design' },
    ],
    [axle],
  );

  const saySetting = (side: SideName): string => {
    const device = sides[side];
    return device.kind === 'adjuster'
      ? sayNotches(fitment[side], t)
      : lengths.say(fitment[side], shimDigits(device, fineStep, fitment[side]));
  };
  const stepAmount = (direction: 1 | -1): string | null => {
    const next = nextPosition(positions, ringIn, direction);
    return next === null ? null : lengths.move(next - ringIn);
  };
  const inward = stepAmount(1);
  const outward = stepAmount(-1);
  const note = sides.ringSide.kind === sides.oppositeSide.kind ? sides.ringSide.kind : ('mixed' as const);

  const preview = (wanted: number) => {
    const place = places[nearestIndex(positions, wanted)];
    const { live, preview: show } = useSetup.getState();
    show({ fitment: { ...live.fitment, ringSide: place.ringSide, oppositeSide: place.oppositeSide } });
  };
  const enter = (side: SideName, setting: number) => {
    const { live, apply } = useSetup.getState();
    apply({
      fitment: {
        ...live.fitment,
        ...pairWith(sides, side, setting, keepTotal ? preload : null, live.fitment),
      },
    });
  };
  const field = (side: SideName) => (
    <SideField
      key={side}
      side={side}
      device={sides[side]}
      setting={fitment[side]}
      fineStep={fineStep}
      onEnter={(setting) => enter(side, setting)}
    />
  );

  return (
    <ControlBlock
      title={t('explore.sides.title')}
      note={t(`explore.sides.${note}`)}
      aside={
        <div className={styles.sidePair}>
          {field('oppositeSide')}
          <ToggleButton
            icon="link"
            label={t('explore.sides.keepTotal')}
            on={keepTotal}
            onChange={usePreloadLock.getState().switchTo}
          />
          {field('ringSide')}
        </div>
      }
    >
      <div className={styles.stepRow}>
        <StepButton
          icon="left"
          label={
            outward === null
              ? t('explore.sides.toOppositeStop')
              : t('explore.sides.toOpposite', { amount: outward })
          }
          disabled={outward === null}
          onPress={() => stepRing(-1)}
        />
        <RulerSlider
          label={t('explore.sides.slider')}
          positions={positions}
          value={ringIn}
          valueText={
            Math.abs(ringIn) < 1e-6
              ? t('explore.sides.valueTextDesign', {
                  ring: saySetting('ringSide'),
                  opposite: saySetting('oppositeSide'),
                })
              : t('explore.sides.valueText', {
                  amount: lengths.move(ringIn),
                  way: ringIn > 0 ? 'in' : 'out',
                  ring: saySetting('ringSide'),
                  opposite: saySetting('oppositeSide'),
                })
          }
          marks={marks}
          leastText={t('explore.sides.outEnd')}
          mostText={t('explore.sides.inEnd')}
          onPreview={preview}
          onCommit={() => useSetup.getState().commit()}
        />
        <StepButton
          icon="right"
          label={
            inward === null ? t('explore.sides.toRingStop') : t('explore.sides.toRing', { amount: inward })
          }
          disabled={inward === null}
          onPress={() => stepRing(1)}
        />
      </div>
      <RingWords explanation={explainSides(axle, found, fitment)} totalKept={keepTotal} />
    </ControlBlock>
  );
}

const shimDigits = (device: SideDevice, fineStep: number | null, setting: number): Digits =>
  digitsToShow(digitsFor(fineStep ?? (device.kind === 'adjuster' ? 1 : device.stock.step)), setting);

/** Both settings after one was typed; with a `preload` (mm) to hold, the other side makes it up. */
function pairWith(
  sides: Sides,
  typedSide: SideName,
  setting: number,
  preload: number | null,
  present: Readonly<Record<SideName, number>>,
): Readonly<Record<SideName, number>> {
  const otherSide: SideName = typedSide === 'ringSide' ? 'oppositeSide' : 'ringSide';
  const other =
    preload === null
      ? present[otherSide]
      : tidy(settingForPush(sides[otherSide], preload - sidePush(sides[typedSide], setting)));
  return typedSide === 'ringSide'
    ? { ringSide: setting, oppositeSide: other }
    : { ringSide: other, oppositeSide: setting };
}

const tidy = (value: number): number => Number(value.toFixed(6)) + 0;

interface SideFieldProps {
  readonly side: SideName;
  readonly device: SideDevice;
  readonly setting: number;
  readonly fineStep: number | null;
  readonly onEnter: (setting: number) => void;
}

function SideField({ side, device, setting, fineStep, onEnter }: SideFieldProps) {
  const t = useText();
  const lengths = useLengths();
  const label = t(`explore.sides.field.${side}`, { kind: device.kind });
  const range = sideRange(device);
  return (
    <div className={styles.side}>
      <span className={styles.sideName} aria-hidden="true">
        {t(`explore.sides.${side}`)}
      </span>
      {device.kind === 'adjuster' ? (
        <MeasureField
          label={label}
          text={sayNotchNumber(setting)}
          unit={t('explore.notches.unit')}
          read={(typed) => readNotches(typed, range, fineStep !== null, t)}
          onEnter={onEnter}
        />
      ) : (
        <MeasureField
          label={label}
          text={lengths.number(setting, shimDigits(device, fineStep, setting))}
          unit={lengths.unitText}
          read={(typed) => lengths.read(typed, range, SHIM_DIGITS)}
          onEnter={onEnter}
        />
      )}
    </div>
  );
}

const sayNotchNumber = (notches: number): string => String(Number(notches.toFixed(2)));
