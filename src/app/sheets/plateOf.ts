import type { SideDevice } from '../../../sim/assembly/hardware.ts';
import { CONTOUR_LEVELS } from '../../flank/contourLevels.ts';
import { renderPlate } from '../../flank/plate.ts';
import type { PlateRow } from '../../flank/plateCaption.ts';
import { axleOf } from '../../state/axles.ts';
import type { ShownMesh } from '../../state/mesh.ts';
import type { Setup } from '../../state/setup.ts';
import type { Translate } from '../../text/translate.ts';
import { formatLength } from '../../units/format.ts';
import type { LengthUnit } from '../../units/length.ts';

export interface PlateWishes {
  /** #rrggbb */
  readonly compoundColour: string;
  readonly units: LengthUnit;
  readonly contours: boolean;
}

/** The plate of a solved set-up as an SVG file: what is fitted stands above the numbers that follow from it. */
export function plateOf(shown: ShownMesh, setup: Setup, wishes: PlateWishes, t: Translate): string {
  const { axle } = axleOf(setup.axleId);
  return renderPlate(shown.result, shown.loaded, {
    title: axle.name,
    hand: axle.hand,
    compoundColour: wishes.compoundColour,
    units: wishes.units,
    contourLevels: wishes.contours ? CONTOUR_LEVELS : undefined,
    rows: fittedRows(setup, wishes.units, t),
    translate: t,
  });
}

function fittedRows(setup: Setup, units: LengthUnit, t: Translate): PlateRow[] {
  const { axle } = axleOf(setup.axleId);
  const { pinionShim, ringSide, oppositeSide } = setup.fitment;
  const thickness = (mm: number): string => formatLength(mm, units, { decimals: units === 'mm' ? 3 : 4 });
  const side = (device: SideDevice, fitted: number): string =>
    device.kind === 'adjuster' ? t('explore.notches', { count: fitted }) : thickness(fitted);
  const rows = [
    {
      name: t('explore.pinion.title'),
      value: `${thickness(pinionShim)}, ${t(`explore.pinion.place.${axle.pinionShim.place}`)}`,
    },
    { name: t('explore.sides.ringSide'), value: side(axle.sides.ringSide, ringSide) },
    { name: t('app.share.oppositeSide'), value: side(axle.sides.oppositeSide, oppositeSide) },
  ];
  return axle.fictional
    ? [{ name: t('explore.axle.label'), value: t('app.share.fictional') }, ...rows]
    : rows;
}
