import { Bench, Readings } from '../areas/explore/Bench.tsx';
import { Dock } from '../areas/explore/Dock.tsx';
import { FlankMaps } from '../areas/explore/FlankMaps.tsx';
import { PatternSummary } from '../areas/explore/PatternSummary.tsx';
import type { Theme } from '../state/preferences.ts';
import { useText } from '../text/useText.ts';
import styles from './App.module.css';
import { Notices } from './Notices.tsx';
import { PictureFrame } from './PictureFrame.tsx';
import { useMediaQuery } from './ui/useMediaQuery.ts';

/** Everything fits beside the picture. */
const ROOMY = '(min-width: 1024px) and (min-height: 1000px)';

export interface ExploreScreenProps {
  readonly theme: Theme;
  /** one control at a time, at the bottom */
  readonly phone: boolean;
}

/** Work area Explore: the picture, the flank maps, the shims. */
export function ExploreScreen({ theme, phone }: ExploreScreenProps) {
  const t = useText();
  const roomy = useMediaQuery(ROOMY);
  return (
    <main className={styles.work}>
      <h2 className="visually-hidden">{t('explore.title')}</h2>
      <div className={styles.picture}>
        <Notices key="notices" />
        {phone
          ? [<FlankMaps key="maps" />, <PictureFrame key="picture" theme={theme} />]
          : [<PictureFrame key="picture" theme={theme} />, <FlankMaps key="maps" />]}
      </div>
      {phone ? (
        <>
          <div className={styles.more}>
            <Readings />
          </div>
          <Dock />
        </>
      ) : (
        <div className={styles.side}>
          <Bench roomy={roomy} />
        </div>
      )}
      <PatternSummary />
    </main>
  );
}
