import { Choice } from '../../../app/ui/controls.tsx';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { useText } from '../../../text/useText.ts';
import { DEPTHS, depthOf, TAPER, withDepth } from './depth.ts';
import styles from './ownAxle.module.css';

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
            <span className={styles.start} data-start="assumed">
              {t('ownAxle.edit.assumed')}
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
