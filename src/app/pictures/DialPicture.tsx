import { lazy, Suspense, useDeferredValue, useEffect } from 'react';
import { DialReading } from '../../areas/explore/dial/DialReading.tsx';
import styles from '../../areas/explore/dial/dial.module.css';
import { PaintWords } from '../../areas/explore/dial/PaintWords.tsx';
import { RoundReadings } from '../../areas/explore/dial/RoundReadings.tsx';
import { RunoutControls } from '../../areas/explore/dial/RunoutControls.tsx';
import { useDialView } from '../../areas/explore/dial/useDialView.ts';
import { useRocking } from '../../areas/explore/dial/useRocking.ts';
import { axleOf } from '../../state/axles.ts';
import { useDial } from '../../state/dial.ts';
import { useMesh } from '../../state/mesh.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { rock } from '../../state/rock.ts';
import { useSolids } from '../../state/solids.ts';
import { dial } from '../../text/en/dial.ts';
import { addTexts } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { rubbedSteel } from '../../theme/steel.ts';
import type { PictureProps } from '../PictureFrame.tsx';
import { StageBoundary } from '../StageBoundary.tsx';

addTexts(dial);

const DialStage = lazy(async () => ({
  default: (await import('../../stage/dial/DialStage.tsx')).DialStage,
}));
const MeshSection = lazy(async () => ({
  default: (await import('../../stage/dial/MeshSection.tsx')).MeshSection,
}));

/** The dial at the ring's heel: in three dimensions, as a large face, and round the ring. */
export function DialPicture({ theme }: PictureProps) {
  const t = useText();
  const view = useDialView();
  useRocking(view !== null && typeof view.play !== 'string');
  // with the dial out of sight the maps show one mark again
  useEffect(() => () => useDial.getState().goTo(null), []);
  const drawn = useSolids((state) => state.shown);
  const shownAxle = useMesh((state) => state.shown?.axleId ?? null);
  const unit = usePreferences((state) => state.units);
  const compound = COMPOUND_COLOURS[usePreferences((state) => state.compound ?? 'yellow')];
  // the readings first, the picture after them
  const behind = useDeferredValue(view);
  if (view === null || behind === null) return <p className={styles.waiting}>{t('dial.waiting')}</p>;
  const axle = drawn === null ? null : axleOf(drawn.axleId).axle;
  // between two axles the solids are the former one's: nothing of the new one belongs to them
  const fits = drawn !== null && drawn.axleId === shownAxle;
  const play = typeof behind.play === 'string' ? null : behind.play;
  return (
    <div className={styles.frame}>
      <div className={styles.picture}>
        <div className={styles.seen}>
          <div className={styles.stage}>
            <StageBoundary>
              <Suspense fallback={<p className={styles.waiting}>{t('app.picture.loading')}</p>}>
                <DialStage
                  solids={drawn?.solids ?? null}
                  solution={fits ? behind.result : null}
                  offset={axle?.gearset.offset ?? 1}
                  mirrored={axle?.hand === 'reverse-cut'}
                  colours={{ compound, mark: rubbedSteel(compound) }}
                  theme={theme}
                  detail={drawn?.detail ?? 'full'}
                  direction={behind.direction}
                  unit={unit}
                  play={fits ? play : null}
                  place={behind.ring}
                  rock={rock}
                  caption={t('dial.stage.caption', { tooth: behind.ring.tooth + 1 })}
                />
              </Suspense>
            </StageBoundary>
            {fits && drawn !== null && (
              <Suspense fallback={null}>
                <div className={styles.inset}>
                  <MeshSection
                    solids={drawn.solids}
                    solution={behind.result}
                    offset={axle?.gearset.offset ?? 1}
                    mirrored={axle?.hand === 'reverse-cut'}
                    phase={behind.ring.phase}
                    play={play}
                    rock={rock}
                  />
                </div>
              </Suspense>
            )}
          </div>
          <RunoutControls view={view} />
        </div>
        <DialReading view={view} rock={rock} />
        <RoundReadings view={view}>
          <PaintWords />
          <p className={styles.bench}>{t('dial.caution')}</p>
        </RoundReadings>
      </div>
    </div>
  );
}
