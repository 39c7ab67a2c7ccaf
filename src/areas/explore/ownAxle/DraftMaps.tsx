import { FLANKS } from '../../../../sim/worker/protocol.ts';
import { FlankMap, type MapFrame } from '../../../flank/FlankMap.tsx';
import { COMPOUND_COLOURS, usePreferences } from '../../../state/preferences.ts';
import { useText } from '../../../text/useText.ts';
import { useDraftMesh } from './draftMesh.ts';
import styles from './ownAxle.module.css';
import { PatternHandles } from './PatternHandles.tsx';
import { WishPanel } from './WishPanel.tsx';

const handlesOver = (frame: MapFrame) => <PatternHandles frame={frame} />;

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
            controls={handlesOver}
          />
        ),
      )}
      <p className={styles.mapsNote}>
        {t('ownAxle.v.at')} {t('ownAxle.p.how')}
      </p>
      {FLANKS.map((flank) => (
        <WishPanel key={flank} flank={flank} />
      ))}
    </div>
  );
}
