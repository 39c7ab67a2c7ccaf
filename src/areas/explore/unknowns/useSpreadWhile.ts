import { useEffect } from 'react';

/** While `on`, the unknowns of the axle are varied at every rest; who never asks for it loads nothing for it. */
export function useSpreadWhile(on: boolean): void {
  useEffect(() => {
    if (!on) return;
    let gone = false;
    let end = (): void => {
      gone = true;
    };
    void Promise.all([import('../../../state/spread.ts'), import('../../../state/longService.ts')]).then(
      ([{ followSpread }, { longService }]) => {
        if (!gone) end = followSpread(longService());
      },
      // not loaded: the words below the maps, loaded with it, are not there either
      () => undefined,
    );
    return () => end();
  }, [on]);
}
