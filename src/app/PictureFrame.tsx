import { Tabs } from '@base-ui/react/tabs';
import { type ComponentType, lazy, Suspense } from 'react';
import type { Theme } from '../state/preferences.ts';
import { PICTURES, type Picture, useView } from '../state/view.ts';
import { useText } from '../text/useText.ts';
import styles from './PictureFrame.module.css';
import { StageFrame } from './StageFrame.tsx';

export interface PictureProps {
  readonly theme: Theme;
}

/** Whoever only rolls the gears never loads the other pictures. */
const SHOWN: Readonly<Record<Picture, ComponentType<PictureProps>>> = {
  gears: StageFrame,
  dial: lazy(async () => ({ default: (await import('./pictures/DialPicture.tsx')).DialPicture })),
  housing: lazy(async () => ({ default: (await import('./pictures/HousingPicture.tsx')).HousingPicture })),
  'shim-map': lazy(async () => ({ default: (await import('./pictures/ShimMapPicture.tsx')).ShimMapPicture })),
  curves: lazy(async () => ({ default: (await import('./pictures/CurvesPicture.tsx')).CurvesPicture })),
  'side-by-side': lazy(async () => ({
    default: (await import('./pictures/SideBySidePicture.tsx')).SideBySidePicture,
  })),
};

/** The large picture and the choice of what it shows. */
export function PictureFrame({ theme }: PictureProps) {
  const t = useText();
  const picture = useView((state) => state.picture);
  const Shown = SHOWN[picture];
  return (
    <Tabs.Root
      className={styles.frame}
      value={picture}
      onValueChange={(chosen: Picture) => useView.getState().showPicture(chosen)}
    >
      <Tabs.List className={styles.list} aria-label={t('app.picture.choose')} activateOnFocus={false}>
        {PICTURES.map((name) => (
          <Tabs.Tab key={name} value={name} className={styles.tab}>
            {t(`app.picture.${name}`)}
          </Tabs.Tab>
        ))}
      </Tabs.List>
      <Tabs.Panel className={styles.panel} value={picture} tabIndex={-1}>
        <Suspense fallback={<p className={styles.loading}>{t('app.picture.loading')}</p>}>
          <Shown theme={theme} />
        </Suspense>
      </Tabs.Panel>
    </Tabs.Root>
  );
}
