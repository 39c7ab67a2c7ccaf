import { LENGTH_UNITS, usePreferences } from '../state/preferences.ts';
import { useText } from '../text/useText.ts';
import { Choice } from './ui/controls.tsx';

/** `name` keeps the radio groups of bar and settings apart. */
export function UnitsChoice({ name }: { readonly name: string }) {
  const t = useText();
  const units = usePreferences((state) => state.units);
  return (
    <Choice
      label={t('app.units.label')}
      name={name}
      value={units}
      options={LENGTH_UNITS.map((value) => ({
        value,
        text: t(`app.units.${value}`),
        label: t(`app.units.${value}.long`),
      }))}
      onChoose={(chosen) => usePreferences.getState().change({ units: chosen })}
    />
  );
}
