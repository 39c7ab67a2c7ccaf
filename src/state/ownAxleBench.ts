import type { AxleFile } from '../../models/axleFileForm.ts';
import type { AxleHardware } from '../../sim/assembly/hardware.ts';
import { axleOf, DEFAULT_AXLE_ID, type KnownAxle } from './axles.ts';
import { deleteOwnAxle, presentForm, restoreOwnAxle, saveOwnAxle } from './ownAxles.ts';
import { type Setup, setupAsFound, useSetup } from './setup.ts';

/** Keeps an axle. Where its former form is on the bench the new one takes its place; that can be undone like any change. */
export function saveToBench(file: AxleFile): KnownAxle {
  const { live, apply } = useSetup.getState();
  const former = axleOf(live.axleId);
  const saved = saveOwnAxle(file);
  if (former.key === file.key && former.id !== saved.id) apply(carriedOver(live, former, saved));
  return saved;
}

/** Deletes an axle and takes it off the bench. Returns what puts both back. */
export function deleteFromBench(key: string): () => void {
  const { live, apply } = useSetup.getState();
  const onBench = axleOf(live.axleId).key === key;
  deleteOwnAxle(key);
  if (onBench) apply(setupAsFound(DEFAULT_AXLE_ID));
  return () => {
    restoreOwnAxle(key);
    if (onBench && presentForm(key) !== null) useSetup.getState().apply(live);
  };
}

/** The set-up on the changed axle: shims stay where the places for them are the same, else they are as found. */
function carriedOver(setup: Setup, former: KnownAxle, changed: KnownAxle): Setup {
  const found = setupAsFound(changed.id);
  const { offsetError, shaftAngleError } = setup;
  const film = setup.film === former.axle.film_mm ? found.film : setup.film;
  const fitment = sameHardware(former.axle, changed.axle) ? setup.fitment : found.fitment;
  return { ...found, fitment, offsetError, shaftAngleError, film };
}

const sameHardware = (a: AxleHardware, b: AxleHardware): boolean =>
  JSON.stringify([a.pinionShim, a.sides]) === JSON.stringify([b.pinionShim, b.sides]);
