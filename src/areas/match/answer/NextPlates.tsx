import type { SolveResult } from '../../../../sim/worker/protocol.ts';
import { FlankMap } from '../../../flank/FlankMap.tsx';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import { axleOf } from '../../../state/axles.ts';
import { useMesh } from '../../../state/mesh.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../../state/preferences.ts';
import { useText } from '../../../text/useText.ts';
import styles from './answer.module.css';

export interface NextPlatesProps {
  readonly axleId: string;
  readonly next: SolveResult;
}

/** Both flanks as they should look after the change, of the nearest mesh; the table tells the mean over all likely ones. */
export function NextPlates({ axleId, next }: NextPlatesProps) {
  const t = useText();
  const shown = useMesh((state) => state.shown);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  if (shown?.axleId !== axleId) return null;
  return (
    <>
      <p className={styles.small}>{t('match.answer.next.plates')}</p>
      <div className={styles.plates} data-part="next">
        {FLANK_ORDER.map((flank) => (
          <FlankMap
            key={flank}
            flank={flank}
            outline={shown.loaded.outline}
            hand={axleOf(axleId).axle.hand}
            result={next}
            compoundColour={COMPOUND_COLOURS[compound]}
          />
        ))}
      </div>
    </>
  );
}
