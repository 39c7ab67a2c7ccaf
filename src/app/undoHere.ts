import { useArea } from '../state/area.ts';
import { useLook } from '../state/look.ts';
import { redoSetup, undoSetup } from '../state/setup.ts';

/** One step back (−1) or forward (1) in the area that is open. */
export function undoHere(way: -1 | 1): void {
  if (useArea.getState().area === 'explore') (way === -1 ? undoSetup : redoSetup)();
  else {
    const { undo, redo } = useLook.temporal.getState();
    (way === -1 ? undo : redo)();
  }
}
