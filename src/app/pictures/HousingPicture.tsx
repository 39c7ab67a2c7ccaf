import { HousingStage } from '../../stage/housing/HousingStage.tsx';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { housing } from '../../text/en/housing.ts';
import { addTexts } from '../../text/translate.ts';
import { rubbedSteel } from '../../theme/steel.ts';
import type { PictureProps } from '../PictureFrame.tsx';
import { useHousing } from './housingState.ts';

addTexts(housing);

/** The housing cut open: where the shims of this axle sit, what they push, how far. */
export function HousingPicture({ theme }: PictureProps) {
  const { axle, fitment, state } = useHousing();
  const compound = COMPOUND_COLOURS[usePreferences((preferences) => preferences.compound ?? 'yellow')];
  const unit = usePreferences((preferences) => preferences.units);
  return (
    <HousingStage
      axle={axle}
      fitment={fitment}
      state={state}
      unit={unit}
      colours={{ compound, mark: rubbedSteel(compound) }}
      theme={theme}
    />
  );
}
