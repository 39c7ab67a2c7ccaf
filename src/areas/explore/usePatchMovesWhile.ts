import { useEffect } from 'react';

/** While `on`, the moves of the marks are worked out at every rest; who never asks for them loads nothing for it. */
export function usePatchMovesWhile(on: boolean): void {
  useEffect(() => {
    if (!on) return;
    let gone = false;
    let end = (): void => {
      gone = true;
    };
    void Promise.all([import('../../state/patchMoves.ts'), import('../../state/longService.ts')]).then(
      ([{ followPatchMoves }, { longService }]) => {
        if (!gone) end = followPatchMoves(longService());
      },
      // not loaded: the key below the maps, loaded with it, is not there either
      () => undefined,
    );
    return () => end();
  }, [on]);
}
