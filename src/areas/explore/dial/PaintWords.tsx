import { Button } from '../../../app/ui/controls.tsx';
import { placeShown, useDial } from '../../../state/dial.ts';
import { useMesh } from '../../../state/mesh.ts';
import { useText } from '../../../text/useText.ts';
import styles from './dial.module.css';

/** What the flank maps show besides the mark of a ring that runs true. */
export function PaintWords() {
  const t = useText();
  const shown = useMesh((state) => state.shown);
  const index = useDial((state) => state.place);
  const place = useDial((state) => placeShown(state, shown));
  if (place === null || index === null) return <p className={styles.note}>{t('dial.paint.mean')}</p>;
  return (
    <div className={styles.paint}>
      <p className={styles.note}>{t('dial.paint.place', { place: index + 1, tooth: place.tooth + 1 })}</p>
      <Button onPress={() => useDial.getState().goTo(null)}>{t('dial.paint.back')}</Button>
    </div>
  );
}
