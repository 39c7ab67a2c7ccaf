import type { Fitment, SideDevice } from '../../../sim/assembly/hardware.ts';
import type { Translate } from '../../text/translate.ts';
import { formatAmount, formatLength, formatNumber } from '../../units/format.ts';
import type { LengthUnit } from '../../units/length.ts';
import type { HousingLayout } from './layout.ts';
import { PART_NAMES, type PartName } from './parts.ts';
import { type Moves, movesOf } from './places.ts';
import { type Drawn, stackAtDesign } from './thickness.ts';

/** What is said of a part: in the list, and beside it in the picture. */
export interface PartInfo {
  readonly name: PartName;
  readonly title: string;
  /** real thickness, notches, or where it stands now */
  readonly value: string | null;
  /** how it is drawn, where that is not true to size */
  readonly drawn: string | null;
  /** whole sentences */
  readonly words: readonly string[];
}

/** Beside the arrow of an adjustment. */
export type PushTexts = Readonly<Record<'pinion-shim' | 'ring-side' | 'opposite-side', string>>;

/** mm; less is nothing */
const NOTHING = 5e-5;

/** Digits that show every thickness a stock makes, and no more. */
function sayThickness(mm: number, unit: LengthUnit): string {
  if (unit === 'in') return formatLength(mm, unit);
  let decimals = 2;
  while (decimals < 4 && Math.abs(mm - Number(mm.toFixed(decimals))) > 1e-7) decimals += 1;
  return formatLength(mm, unit, { decimals });
}

const sayMove = (mm: number, unit: LengthUnit): string =>
  unit === 'in' ? formatAmount(mm, unit) : formatAmount(mm, unit, { decimals: mmDigits(mm) });

const mmDigits = (mm: number): number => (Math.abs(mm - Number(mm.toFixed(2))) > 1e-6 ? 3 : 2);

/** A factor on the screen: whole where it is whole. */
export const sayTimes = (factor: number): string =>
  formatNumber(factor, Math.abs(factor - Math.round(factor)) < 0.05 ? 0 : 1);

export function describeParts(
  layout: HousingLayout,
  fitment: Fitment,
  unit: LengthUnit,
  t: Translate,
): readonly PartInfo[] {
  const { hardware, drawn, gears } = layout;
  const moves = movesOf(hardware, fitment);
  const present = new Set<PartName>(layout.bodies.map((body) => body.part));
  present.add('ring');
  const { place } = hardware.pinionShim;

  const info: Readonly<Record<PartName, () => Omit<PartInfo, 'name'>>> = {
    'pinion-shim': () => ({
      title: t('housing.part.pinion-shim'),
      value: sayThickness(fitment.pinionShim, unit),
      drawn: sayDrawn(drawn.pinionShim, t),
      words: [
        t(`housing.does.pinion-shim.${place}`),
        shimChange(fitment.pinionShim - hardware.pinionShim.design, unit, t),
        drawnWords(drawn.pinionShim, t),
      ],
    }),
    'ring-side': () =>
      side('ring-side', hardware.sides.ringSide, fitment.ringSide, moves.ringPush, drawn.ringSide),
    'opposite-side': () =>
      side(
        'opposite-side',
        hardware.sides.oppositeSide,
        fitment.oppositeSide,
        moves.oppositePush,
        drawn.oppositeSide,
      ),
    pinion: () => ({
      title: t('housing.part.pinion'),
      value: sayAt(moves.pinionIn, unit, t),
      drawn: null,
      words: [
        t('housing.does.pinion'),
        Math.abs(moves.pinionIn) < NOTHING
          ? t('housing.at.design')
          : t('housing.at.pinion.words', {
              amount: sayMove(moves.pinionIn, unit),
              way: moves.pinionIn > 0 ? 'in' : 'out',
            }),
      ],
    }),
    ring: () => ({
      title: t('housing.part.ring'),
      value: sayAt(-moves.ringAway, unit, t),
      drawn: null,
      words: [
        t('housing.does.ring'),
        Math.abs(moves.ringAway) < NOTHING
          ? t('housing.at.design')
          : t('housing.at.ring.words', {
              amount: sayMove(moves.ringAway, unit),
              way: moves.ringAway < 0 ? 'in' : 'out',
            }),
      ],
    }),
    carrier: () => plain('carrier', [t('housing.does.carrier', squeezeOf(moves, unit))]),
    'head-bearing': () =>
      plain('head-bearing', [
        t('housing.does.head-bearing', { moves: place === 'head-bearing' ? 'no' : 'yes' }),
      ]),
    'tail-bearing': () =>
      plain('tail-bearing', [
        t('housing.does.tail-bearing', { moves: place === 'cartridge' ? 'yes' : 'no' }),
      ]),
    spacer: () => {
      const kind = hardware.spacer.kind === 'crush-sleeve' ? 'crush' : 'solid';
      return {
        title: t('housing.part.spacer', { kind }),
        value: null,
        drawn: null,
        words: [t(`housing.does.spacer.${kind}`)],
      };
    },
    'spacer-stack': () => {
      const follows = place === 'behind-cup';
      const now = stackAtDesign(hardware) + (follows ? fitment.pinionShim - hardware.pinionShim.design : 0);
      return {
        title: t('housing.part.spacer-stack'),
        value: sayThickness(now, unit),
        drawn: drawn.stack === null ? null : sayDrawn(drawn.stack, t),
        words: [
          t(follows ? 'housing.does.spacer-stack.follows' : 'housing.does.spacer-stack'),
          ...(drawn.stack === null ? [] : [drawnWords(drawn.stack, t)]),
        ],
      };
    },
    cartridge: () => plain('cartridge', [t('housing.does.cartridge')]),
    'ring-bearing': () => plain('ring-bearing', [t('housing.does.ring-bearing')]),
    'opposite-bearing': () => plain('opposite-bearing', [t('housing.does.opposite-bearing')]),
    flange: () => plain('flange', [t('housing.does.flange')]),
    housing: () =>
      plain('housing', [
        t('housing.does.housing', {
          offset: formatAmount(gears.offset, unit, { decimals: unit === 'mm' ? 1 : 3 }),
        }),
        t('housing.fictional'),
      ]),
  };

  type Plain = Exclude<PartName, 'ring-side' | 'opposite-side' | 'spacer'>;
  function plain(name: Plain, words: readonly string[]): Omit<PartInfo, 'name'> {
    return { title: t(`housing.part.${name}`), value: null, drawn: null, words };
  }

  function side(
    name: 'ring-side' | 'opposite-side',
    device: SideDevice,
    setting: number,
    push: number,
    thickness: Drawn | null,
  ): Omit<PartInfo, 'name'> {
    const way = name === 'ring-side' ? 'in' : 'out';
    const title = t(`housing.part.${name}`, { kind: device.kind });
    const does = t(`housing.does.side.${device.kind}`, { way });
    if (device.kind !== 'adjuster') {
      return {
        title,
        value: sayThickness(setting, unit),
        drawn: thickness === null ? null : sayDrawn(thickness, t),
        words: [
          does,
          shimChange(setting - device.design, unit, t),
          ...(thickness === null ? [] : [drawnWords(thickness, t)]),
        ],
      };
    }
    const turned = setting - device.design;
    const notches = (count: number) => t('explore.notches', { count: Number(count.toFixed(2)) + 0 });
    return {
      title,
      value: notches(setting),
      drawn: null,
      words: [
        does,
        Math.abs(turned) < 1e-6
          ? t('housing.adjuster.same')
          : t('housing.adjuster.changed', {
              notches: notches(Math.abs(turned)),
              change: turned > 0 ? 'thicker' : 'thinner',
              amount: sayMove(push, unit),
            }),
      ],
    };
  }

  return PART_NAMES.filter((name) => present.has(name)).map((name) => ({ name, ...info[name]() }));
}

export function describePushes(layout: HousingLayout, t: Translate): PushTexts {
  const { pinionShim, sides } = layout.hardware;
  return {
    'pinion-shim': t('housing.push.pinion', { way: pinionShim.place === 'cartridge' ? 'out' : 'in' }),
    'ring-side': t('housing.push.ringSide', { kind: sides.ringSide.kind }),
    'opposite-side': t('housing.push.oppositeSide', { kind: sides.oppositeSide.kind }),
  };
}

const sayDrawn = ({ factor }: Drawn, t: Translate): string | null =>
  factor === 1 ? null : t('housing.times', { times: factor });

const drawnWords = ({ factor }: Drawn, t: Translate): string =>
  factor === 1 ? t('housing.drawnTrue') : t('housing.drawnTimes', { times: factor });

const sayAt = (inward: number, unit: LengthUnit, t: Translate): string | null =>
  Math.abs(inward) < NOTHING
    ? null
    : t('housing.at.pinion', { amount: sayMove(inward, unit), way: inward > 0 ? 'in' : 'out' });

const shimChange = (thicker: number, unit: LengthUnit, t: Translate): string =>
  Math.abs(thicker) < NOTHING
    ? t('housing.shim.same')
    : t('housing.shim.changed', {
        amount: sayMove(thicker, unit),
        change: thicker > 0 ? 'thicker' : 'thinner',
      });

const squeezeOf = ({ squeeze }: Moves, unit: LengthUnit) => ({
  squeeze: Math.abs(squeeze) < NOTHING ? 'same' : squeeze > 0 ? 'more' : 'less',
  amount: sayMove(squeeze, unit),
});
