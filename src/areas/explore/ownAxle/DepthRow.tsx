import { Choice } from '../../../app/ui/controls.tsx';
import { type AxleDraft, withEntry } from '../../../state/axleDraft.ts';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { useText } from '../../../text/useText.ts';
import styles from './ownAxle.module.css';

const DEPTHS = ['tapered', 'uniform'] as const;
type Depth = (typeof DEPTHS)[number];

const TAPER = 'gearset.tooth.depthTaper';
const METHOD = 'gearset.cut.method';
/** taper of a set that is only known to be tapered */
const USUAL_TAPER = 0.8;

const depthOf = ({ entries }: AxleDraft): Depth => (entries[TAPER] === 0 ? 'uniform' : 'tapered');

/** What the eye sees of the depth: it sets the taper, and with it how the set was cut as a rule. */
function withDepth(draft: AxleDraft, depth: Depth): AxleDraft {
  if (depth === depthOf(draft) && draft.given.includes(TAPER)) return draft;
  const cut = withEntry(draft, METHOD, depth === 'uniform' ? 'face-hobbed' : 'face-milled');
  return withEntry(cut, TAPER, depth === 'uniform' ? 0 : USUAL_TAPER);
}

/** Tapered or uniform depth: no field of the file, but the one thing about the cutting that can be seen. */
export function DepthRow() {
  const t = useText();
  const depth = useAxleDrafts((state) => {
    const draft = openDraft(state);
    return draft === null ? 'tapered' : depthOf(draft);
  });
  const given = useAxleDrafts((state) => openDraft(state)?.given.includes(TAPER) ?? true);
  return (
    <div className={styles.row} data-wide="">
      <div className={styles.rowText}>
        <div className={styles.rowHead}>
          <span className={styles.label}>{t('ownAxle.f.depth')}</span>
          {!given && (
            <span className={styles.start} data-start="example">
              {t('ownAxle.edit.example')}
            </span>
          )}
        </div>
        <p className={styles.help}>{t('ownAxle.h.depth')}</p>
      </div>
      <Choice
        label={t('ownAxle.f.depth')}
        name="own-axle-depth"
        value={depth}
        options={DEPTHS.map((value) => ({ value, text: t(`ownAxle.c.${value}`) }))}
        onChoose={(chosen) => useAxleDrafts.getState().change('depth', (draft) => withDepth(draft, chosen))}
      />
    </div>
  );
}
