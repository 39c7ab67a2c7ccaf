import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { FlankMap } from '../../../flank/FlankMap.tsx';
import { COMPOUND_COLOURS, usePreferences } from '../../../state/preferences.ts';
import { useText } from '../../../text/useText.ts';
import { useDraftMesh } from './draftMesh.ts';
import styles from './ownAxle.module.css';

const FLANKS = ['drive', 'coast'] as const satisfies readonly FlankName[];

/** Both flanks of the draft at the design position. */
export function DraftMaps() {
  const t = useText();
  const made = useDraftMesh((state) => state.made);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  return (
    <div className={styles.maps}>
      {FLANKS.map((flank) =>
        made === null ? (
          <div key={flank} className={styles.blankMap}>
            {t(`flank.name.${flank}`)}
          </div>
        ) : (
          <FlankMap
            key={flank}
            flank={flank}
            outline={made.loaded.outline}
            hand={made.axle.hand}
            result={made.result}
            compoundColour={COMPOUND_COLOURS[compound]}
          />
        ),
      )}
      <p className={styles.mapsNote}>{t('ownAxle.v.at')}</p>
    </div>
  );
}
