import { lazy, Suspense, useDeferredValue, useRef, useState } from 'react';
import type { SolveResult } from '../../sim/worker/protocol.ts';
import { axleOf } from '../state/axles.ts';
import { useMesh } from '../state/mesh.ts';
import { COMPOUND_COLOURS, type Theme, usePreferences } from '../state/preferences.ts';
import { useSolids } from '../state/solids.ts';
import { useView } from '../state/view.ts';
import { useText } from '../text/useText.ts';
import { rubbedSteel } from '../theme/steel.ts';
import { failureWords } from './Notices.tsx';
import { StageBoundary } from './StageBoundary.tsx';
import styles from './StageFrame.module.css';
import { Button } from './ui/controls.tsx';

/** The 3D code comes after the first picture of the flank maps. */
const GearStage = lazy(async () => ({ default: (await import('../stage/GearStage.tsx')).GearStage }));

/** The stage with what it shows, and what stands there when it cannot show anything. */
export function StageFrame({ theme }: { readonly theme: Theme }) {
  const t = useText();
  const [attempt, setAttempt] = useState(0);
  return (
    <div className={styles.frame}>
      <StageBoundary
        key={attempt}
        otherwise={
          <div className={styles.broken} role="status">
            <p className={styles.brokenTitle}>{t('app.stage.broken')}</p>
            <p>{t('app.stage.broken.why')}</p>
            <Button icon="reset" onPress={() => setAttempt((count) => count + 1)}>
              {t('app.stage.retry')}
            </Button>
          </div>
        }
      >
        <Suspense fallback={<p className={styles.loading}>{t('app.stage.loading')}</p>}>
          <Stage theme={theme} />
          <SolidsFailure />
        </Suspense>
      </StageBoundary>
    </div>
  );
}

/** Drawn shapes that cannot be made are told of under the stage's own words; the maps do not need them. */
function SolidsFailure() {
  const t = useText();
  const failure = useSolids((state) => state.failure);
  return failure === null ? null : (
    <p className={styles.solidsFailure} role="status">
      {t('app.stage.broken')} {failureWords(failure, t)}
    </p>
  );
}

function Stage({ theme }: { readonly theme: Theme }) {
  const drawn = useSolids((state) => state.shown);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  const home = useView((state) => state.camera);
  // the maps and readings first, the picture after them
  const solution = useDeferredValue(useSolutionOf(drawn?.axleId ?? null));
  const axle = drawn === null ? null : axleOf(drawn.axleId).axle;
  const colours = STAGE_COLOURS[compound];
  return (
    <GearStage
      solids={drawn?.solids ?? null}
      solution={solution}
      offset={axle?.gearset.offset ?? 1}
      mirrored={axle?.hand === 'reverse-cut'}
      colours={colours}
      theme={theme}
      detail={drawn?.detail ?? 'full'}
      home={home}
      onHome={useView.getState().goHome}
    />
  );
}

/** The newest solution that belongs to the solids on the stage; between two axles that is the former one's last. */
function useSolutionOf(axleId: string | null): SolveResult | null {
  const shown = useMesh((state) => state.shown);
  const last = useRef<{ axleId: string; result: SolveResult } | null>(null);
  if (shown !== null && shown.axleId === axleId) last.current = shown;
  return last.current?.axleId === axleId ? (last.current?.result ?? null) : null;
}

const STAGE_COLOURS = Object.fromEntries(
  Object.entries(COMPOUND_COLOURS).map(([name, compound]) => [
    name,
    { compound, mark: rubbedSteel(compound) },
  ]),
) as Readonly<Record<keyof typeof COMPOUND_COLOURS, { compound: string; mark: string }>>;
