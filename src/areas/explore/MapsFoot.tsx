import { lazy, memo, Suspense } from 'react';
import { IconButton, ToggleButton } from '../../app/ui/controls.tsx';
import { axleOf } from '../../state/axles.ts';
import { useMesh } from '../../state/mesh.ts';
import { usePreferences } from '../../state/preferences.ts';
import { useTraces } from '../../state/traces.ts';
import { useUnknowns } from '../../state/unknowns.ts';
import { useView } from '../../state/view.ts';
import { useText } from '../../text/useText.ts';
import styles from './mapTools.module.css';

const ArrowTimes = lazy(async () => ({ default: (await import('./MoveKey.tsx')).ArrowTimes }));
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
        <p className={styles.underToggle}>
          {units === 'in' ? t('explore.unit.thou.short') : t('explore.unit.micron')}
        </p>
      )}
      <ToggleButton
        icon="arrows"
        label={t('explore.arrows')}
        on={arrows}
        onChange={useView.getState().setArrows}
      />
      {arrows && (
        <Suspense fallback={null}>
          <ArrowTimes className={styles.underToggle} />
        </Suspense>
      )}
      <Unknowns />
      <Traces />
    </div>
  );
});

/** Only an own axle has unknowns: the practice axles are what they say. */
function Unknowns() {
  const t = useText();
  const on = useUnknowns((state) => state.on);
  const isOwn = useMesh((state) => state.shown !== null && axleOf(state.shown.axleId).key !== null);
  if (!isOwn) return null;
  return (
    <ToggleButton icon="spread" label={t('explore.unknowns')} on={on} onChange={useUnknowns.getState().set} />
  );
}

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
