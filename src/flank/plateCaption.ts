import type { SolveResult } from '../../sim/worker/protocol.ts';
import type { Translate } from '../text/translate.ts';
import { formatAmount, formatDegrees, formatMicron, formatMicrorad } from '../units/format.ts';
import type { LengthUnit } from '../units/length.ts';

export interface PlateRow {
  readonly name: string;
  readonly value: string;
}

/** Thousandths of a mm or ten-thousandths of an inch: a plate is looked up, not read across a bench. */
const decimalsOf = (units: LengthUnit): number => (units === 'mm' ? 3 : 4);

/** The numbers under the maps: pose, film, backlash, transmission error. Errors of the housing only when there are any. */
export function plateRows(result: SolveResult, units: LengthUnit, t: Translate): PlateRow[] {
  const { pose, film, backlash, drive, coast } = result;
  const amount = (mm: number): string => formatAmount(mm, units, { decimals: decimalsOf(units) });
  const sizes = (square: number, tangential: number): string =>
    t('flank.plate.backlashValue', { square: amount(square), tangential: amount(tangential) });
  const rows: PlateRow[] = [
    {
      name: t('flank.plate.pinion'),
      value:
        pose.pinionIn === 0
          ? t('flank.plate.design')
          : t(pose.pinionIn > 0 ? 'flank.plate.pinionIn' : 'flank.plate.pinionOut', {
              amount: amount(pose.pinionIn),
            }),
    },
    {
      name: t('flank.plate.ring'),
      value:
        pose.ringAway === 0
          ? t('flank.plate.design')
          : t(pose.ringAway > 0 ? 'flank.plate.ringAway' : 'flank.plate.ringToward', {
              amount: amount(pose.ringAway),
            }),
    },
  ];
  if (pose.offsetError !== 0) {
    rows.push({
      name: t('flank.plate.offset'),
      value: t(pose.offsetError > 0 ? 'flank.plate.larger' : 'flank.plate.smaller', {
        amount: amount(pose.offsetError),
      }),
    });
  }
  if (pose.shaftAngleError !== 0) {
    rows.push({
      name: t('flank.plate.shaft'),
      value: t(pose.shaftAngleError > 0 ? 'flank.plate.larger' : 'flank.plate.smaller', {
        amount: formatDegrees(Math.abs(pose.shaftAngleError), { decimals: 3 }),
      }),
    });
  }
  rows.push({
    name: t('flank.plate.film'),
    value: units === 'mm' ? formatMicron(film, { decimals: 2 }) : formatAmount(film, units, { decimals: 5 }),
  });
  const { normal, tangential, normalMean, tangentialMean } = backlash;
  const known = normal !== null && tangential !== null && normalMean !== null && tangentialMean !== null;
  rows.push({
    name: t('flank.plate.backlash'),
    value: backlash.binding
      ? t('flank.plate.binding')
      : known
        ? sizes(normal, tangential)
        : t('flank.plate.noContact'),
  });
  if (known && !backlash.binding) {
    rows.push({ name: t('flank.plate.backlashMean'), value: sizes(normalMean, tangentialMean) });
  }
  const error = (microrad: number | null): string =>
    microrad === null ? t('flank.plate.noContact') : formatMicrorad(microrad);
  rows.push({
    name: t('flank.plate.transmissionError'),
    value: t('flank.plate.transmissionErrorValue', {
      drive: error(drive.transmissionError),
      coast: error(coast.transmissionError),
    }),
  });
  return rows;
}
