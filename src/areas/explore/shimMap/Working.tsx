import { type ReactNode, useEffect } from 'react';
import type { WorkerFailure } from '../../../../sim/worker/protocol.ts';
import { Button } from '../../../app/ui/controls.tsx';
import styles from '../../../shimMap/ShimMap.module.css';
import { aboutToDraw } from '../../../state/pageRest.ts';
import { useShimMap } from '../../../state/shimMap.ts';
import { useText } from '../../../text/useText.ts';

export interface WorkingProps {
  /** the shell words failures of the core */
  readonly failureWords: (failure: WorkerFailure) => string;
}

/** How far the map is, and the buttons to stop it and go on. Empty at rest. */
export function Working({ failureWords }: WorkingProps) {
  const t = useText();
  const progress = useShimMap((state) => state.progress);
  const stopped = useShimMap((state) => state.stopped);
  const failure = useShimMap((state) => state.failure);
  const rough = useShimMap((state) => state.shown !== null);
  const { stop, goOn } = useShimMap.getState();
  // biome-ignore lint/correctness/useExhaustiveDependencies: each change of it is a frame to come
  useEffect(aboutToDraw, [progress]);
  if (failure !== null) {
    return (
      <Strip>
        <p role="alert">{t('shimMap.failed', { reason: failureWords(failure) })}</p>
        <Button onPress={goOn}>{t('shimMap.goOn')}</Button>
      </Strip>
    );
  }
  if (stopped) {
    return (
      <Strip>
        <p role="status">{t('shimMap.stopped', { rough: rough ? 'yes' : 'no' })}</p>
        <Button onPress={goOn}>{t('shimMap.goOn')}</Button>
      </Strip>
    );
  }
  if (progress === null) return null;
  const percent = Math.round(progress * 100);
  const words = t(rough ? 'shimMap.refining' : 'shimMap.working', { percent });
  return (
    <Strip>
      <label className={styles.progress}>
        <span>{words}</span>
        <progress max={100} value={percent} />
      </label>
      <Button onPress={stop}>{t('shimMap.stop')}</Button>
    </Strip>
  );
}

function Strip({ children }: { readonly children: ReactNode }) {
  return <div className={styles.strip}>{children}</div>;
}
