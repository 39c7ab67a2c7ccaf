import { lazy, memo, Suspense } from 'react';
import { IconButton, ToggleButton } from '../../app/ui/controls.tsx';
import { usePreferences } from '../../state/preferences.ts';
import { useTraces } from '../../state/traces.ts';
import { useView } from '../../state/view.ts';
import { useText } from '../../text/useText.ts';
import styles from './mapTools.module.css';

const FormerWords = lazy(async () => ({ default: (await import('./FormerWords.tsx')).FormerWords }));

/** What the maps show beside the mark. */
export const MapsFoot = memo(function MapsFoot() {
  const t = useText();
  const contours = useView((state) => state.contours);
  const arrows = useView((state) => state.arrows);
  const units = usePreferences((state) => state.units);
  return (
    <div className={styles.foot}>
      <ToggleButton
        icon="contours"
        label={t('explore.contours')}
        on={contours}
        onChange={useView.getState().setContours}
      />
      {contours && (
        <p className={styles.contourUnit}>
          {units === 'in' ? t('explore.unit.thou.short') : t('explore.unit.micron')}
        </p>
      )}
      <ToggleButton
        icon="arrows"
        label={t('explore.arrows')}
        on={arrows}
        onChange={useView.getState().setArrows}
      />
      <Traces />
    </div>
  );
});

function Traces() {
  const t = useText();
  const on = usePreferences((state) => state.traces);
  const former = useTraces((state) => state.former !== null);
  return (
    <>
      <ToggleButton
        icon="traces"
        label={t('explore.traces')}
        on={on}
        onChange={(traces) => usePreferences.getState().change({ traces })}
      />
      {on && former && (
        <>
          <IconButton
            icon="dismissTraces"
            label={t('explore.traces.dismiss')}
            onPress={useTraces.getState().dismiss}
          />
          <Suspense fallback={null}>
            <FormerWords />
          </Suspense>
        </>
      )}
    </>
  );
}
