import { lazy, Suspense, useDeferredValue, useMemo, useRef } from 'react';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import { SideBySideView } from '../../areas/explore/sideBySide/SideBySideView.tsx';
import { axleOf } from '../../state/axles.ts';
import { type ComparedSolids, useCompare } from '../../state/compare.ts';
import { type ShownMesh, useMesh } from '../../state/mesh.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { useView } from '../../state/view.ts';
import { sideBySide } from '../../text/en/sideBySide.ts';
import { addTexts } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { rubbedSteel } from '../../theme/steel.ts';
import { failureWords } from '../Notices.tsx';
import type { PictureProps } from '../PictureFrame.tsx';
import { StageBoundary } from '../StageBoundary.tsx';
import styles from './SideBySidePicture.module.css';

addTexts(sideBySide);

const TwinStage = lazy(async () => ({ default: (await import('../../stage/TwinStage.tsx')).TwinStage }));

/** The present set-up beside another one. */
export function SideBySidePicture({ theme }: PictureProps) {
  const t = useText();
  const failure = useCompare((state) => state.failure);
  return (
    <SideBySideView
      failure={failure === null ? null : failureWords(failure, t)}
      stage={
        <StageBoundary otherwise={<p className={styles.note}>{t('app.stage.broken')}</p>}>
          <Suspense fallback={<p className={styles.note}>{t('twin.loading')}</p>}>
            <Twins theme={theme} />
          </Suspense>
        </StageBoundary>
      }
    />
  );
}

function Twins({ theme }: PictureProps) {
  const t = useText();
  const { leftSolids, rightSolids, shown, target, left, linked } = useCompare();
  const present = useMesh((state) => state.shown);
  const home = useView((state) => state.camera);
  const compound = COMPOUND_COLOURS[usePreferences((state) => state.compound ?? 'yellow')];
  const colours = useMemo(() => ({ compound, mark: rubbedSteel(compound) }), [compound]);
  const leftSolution = useDeferredValue(useLastOf(shown, leftSolids));
  const rightSolution = useDeferredValue(useLastOf(present, rightSolids));
  const name = (side: 'left' | 'right', axleId: string | undefined, stand: string) =>
    axleId === undefined
      ? t(`twin.${side}`)
      : t('twin.name', { side: t(`twin.${side}`), axle: axleOf(axleId).axle.name, stand });
  return (
    <TwinStage
      left={{
        ...drawnSet(leftSolids),
        solution: leftSolution,
        label: name('left', target?.axleId, t(`twin.stand.${left.stand}`)),
      }}
      right={{
        ...drawnSet(rightSolids),
        solution: rightSolution,
        label: name('right', present?.axleId, t('twin.now')),
      }}
      linked={linked}
      colours={colours}
      theme={theme}
      detail="reduced"
      home={home}
      onHome={useView.getState().goHome}
    />
  );
}

function drawnSet(drawn: ComparedSolids | null) {
  const axle = drawn === null ? null : axleOf(drawn.axleId).axle;
  return {
    solids: drawn?.solids ?? null,
    offset: axle?.gearset.offset ?? 1,
    mirrored: axle?.hand === 'reverse-cut',
  };
}

/** The newest solution of the set that is drawn; between two sets that is the former one's last. */
function useLastOf(shown: ShownMesh | null, drawn: ComparedSolids | null): SolveResult | null {
  const last = useRef<ShownMesh | null>(null);
  if (shown !== null && shown.axleId === drawn?.axleId) last.current = shown;
  return last.current?.axleId === drawn?.axleId ? (last.current?.result ?? null) : null;
}
