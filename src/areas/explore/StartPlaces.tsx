import { Button } from '../../app/ui/controls.tsx';
import { goAsFound, goToDesign } from '../../state/moves.ts';
import { useText } from '../../text/useText.ts';
import styles from './explore.module.css';

/** The two places to start from again. */
export function StartPlaces() {
  const t = useText();
  return (
    <div className={styles.starts}>
      <Button onPress={goAsFound}>
        <span className={styles.foundSign} aria-hidden="true" />
        {t('explore.found')}
      </Button>
      <Button onPress={goToDesign}>
        <span className={styles.designSign} aria-hidden="true" />
        {t('explore.design')}
      </Button>
    </div>
  );
}
