import type { AxleDefinition } from '../../../models/axle.ts';
import { axleOf } from '../../state/axles.ts';
import { usePreferences } from '../../state/preferences.ts';
import { useShownSetup } from '../../state/shownSetup.ts';

/** The axle being set up. */
export const useAxle = (): AxleDefinition => axleOf(useShownSetup(({ setup }) => setup.axleId)).axle;

/** mm per fine step, or null where the stock decides. */
export const useFineStep = (): number | null =>
  usePreferences((state) => (state.fine ? state.fineStep : null));
