import { Switch } from '../../app/ui/controls.tsx';
import { Icon } from '../../app/ui/Icon.tsx';
import { usePreferences } from '../../state/preferences.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { useText } from '../../text/useText.ts';
import { BacklashPanel } from './BacklashPanel.tsx';
import styles from './explore.module.css';
import { FilmControl } from './FilmControl.tsx';
import { HousingControl } from './HousingControl.tsx';
import { PinionControl } from './PinionControl.tsx';
import { SidesControl } from './SidesControl.tsx';
import { StartPlaces } from './StartPlaces.tsx';

export interface BenchProps {
  /** room for the housing errors without scrolling */
  readonly roomy: boolean;
}

/** Readings and controls of the axle, all in sight: for screens wider than a phone. */
export function Bench({ roomy }: BenchProps) {
  const t = useText();
  return (
    <section className={styles.bench} id="controls" aria-label={t('explore.bench')} tabIndex={-1}>
      <Readings />
      <div className={styles.benchShims}>
        <PinionControl />
        <SidesControl />
      </div>
      <div className={styles.benchRest}>
        <FilmControl />
        <Housing roomy={roomy} />
      </div>
    </section>
  );
}

/** The dial readings, and the places to start from again. */
export function Readings() {
  return (
    <div className={styles.benchReading}>
      <BacklashPanel />
      <div className={styles.legend}>
        <StartPlaces />
        <FineSwitch />
      </div>
    </div>
  );
}

function FineSwitch() {
  const t = useText();
  const fine = usePreferences((state) => state.fine);
  return (
    <Switch on={fine} onChange={(on) => usePreferences.getState().change({ fine: on })}>
      {t('explore.fine')}
    </Switch>
  );
}

function Housing({ roomy }: BenchProps) {
  const t = useText();
  const isTrue = useShownSetup(({ setup }) => setup.offsetError === 0 && setup.shaftAngleError === 0);
  return (
    <details className={styles.disclosure} open={roomy}>
      <summary className={styles.disclosureHead}>
        <span className={styles.blockTitle}>{t('explore.housing.title')}</span>
        <span className={styles.blockNote} data-true={isTrue ? '' : undefined}>
          {t(isTrue ? 'explore.housing.true' : 'explore.housing.set')}
        </span>
        <span className={styles.disclosureSign}>
          <Icon name="down" />
        </span>
      </summary>
      <HousingControl />
    </details>
  );
}
