import type { FlankName } from '../../../sim/gearset/definition.ts';
import { ToggleButton } from '../../app/ui/controls.tsx';
import { CONTOUR_LEVELS } from '../../flank/contourLevels.ts';
import { FlankMap } from '../../flank/FlankMap.tsx';
import { axleOf } from '../../state/axles.ts';
import { useMesh } from '../../state/mesh.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { useView } from '../../state/view.ts';
import { useText } from '../../text/useText.ts';
import { formatNumber } from '../../units/format.ts';
import { mmToThou } from '../../units/length.ts';
import styles from './explore.module.css';

const FLANKS = ['drive', 'coast'] as const satisfies readonly FlankName[];

const inThou = (mm: number): string => formatNumber(mmToThou(mm), 2);

/** Both flanks of the ring tooth on paper. */
export function FlankMaps() {
  const t = useText();
  const shown = useMesh((state) => state.shown);
  const contours = useView((state) => state.contours);
  const units = usePreferences((state) => state.units);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  return (
    <section className={styles.maps} id="flank-maps" aria-label={t('explore.maps')} tabIndex={-1}>
      {FLANKS.map((flank) =>
        shown === null ? (
          <div key={flank} className={styles.blankMap}>
            {t(`flank.name.${flank}`)}
          </div>
        ) : (
          <FlankMap
            key={flank}
            flank={flank}
            outline={shown.loaded.outline}
            hand={axleOf(shown.axleId).axle.hand}
            result={shown.result}
            compoundColour={COMPOUND_COLOURS[compound]}
            contourLevels={contours ? CONTOUR_LEVELS : undefined}
            formatSeparation={units === 'in' ? inThou : undefined}
          />
        ),
      )}
      <div className={styles.mapsFoot}>
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
      </div>
    </section>
  );
}
