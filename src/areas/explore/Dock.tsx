import { Tabs } from '@base-ui/react/tabs';
import { useText } from '../../text/useText.ts';
import { BacklashLine } from './BacklashLine.tsx';
import styles from './Dock.module.css';
import { FilmControl } from './FilmControl.tsx';
import { HousingControl } from './HousingControl.tsx';
import { PinionControl } from './PinionControl.tsx';
import { SidesControl } from './SidesControl.tsx';

const TABS = ['pinion', 'sides', 'film', 'housing'] as const;

/** The same controls for a phone: the reading and one control at a time, where the thumb is. */
export function Dock() {
  const t = useText();
  return (
    <section className={styles.dock} id="controls" aria-label={t('explore.bench')} tabIndex={-1}>
      <BacklashLine />
      <Tabs.Root defaultValue="pinion" className={styles.tabs}>
        <Tabs.List className={styles.list} aria-label={t('explore.control.choose')}>
          {TABS.map((tab) => (
            <Tabs.Tab key={tab} value={tab} className={styles.tab}>
              {t(`explore.${tab}.short`)}
            </Tabs.Tab>
          ))}
        </Tabs.List>
        <Tabs.Panel value="pinion" className={styles.panel}>
          <PinionControl />
        </Tabs.Panel>
        <Tabs.Panel value="sides" className={styles.panel}>
          <SidesControl />
        </Tabs.Panel>
        <Tabs.Panel value="film" className={styles.panel}>
          <FilmControl />
        </Tabs.Panel>
        <Tabs.Panel value="housing" className={styles.panel}>
          <HousingControl />
        </Tabs.Panel>
      </Tabs.Root>
    </section>
  );
}
