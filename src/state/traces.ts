import { create } from 'zustand';
import type { FlankName } from '../../sim/gearset/definition.ts';
import { type ShownMesh, useMesh } from './mesh.ts';
import { useSetup } from './setup.ts';

/** Middle of a mark in flank coordinates; null where there was none. */
export type MarkCentre = { readonly toeHeel: number; readonly rootFace: number } | null;

/** The middles of both marks at one step. */
export type TrailPoint = Readonly<Record<FlankName, MarkCentre>>;

/** What the last change left behind on the flank maps. */
export interface TracesStore {
  /** the mesh before the last change; null: none yet, or dismissed */
  readonly former: ShownMesh | null;
  /** where the marks were since the last change began, its start first; kept until the next one */
  readonly trail: readonly TrailPoint[];
  readonly dismiss: () => void;
  readonly reset: () => void;
}

const NOTHING = { former: null, trail: [] } as const;

export const useTraces = create<TracesStore>()((set) => ({
  ...NOTHING,
  dismiss: () => set(NOTHING),
  reset: () => set(NOTHING),
}));

/** ms of rest before the former mark is drawn: the step that ends a change does not pay for it. */
export const FORMER_REST_MS = 150;

/** A trail of more points than this loses every other one: far more than can be told apart on a map. */
export const MOST_POINTS = 256;

const centresOf = ({ result }: ShownMesh): TrailPoint => {
  const centre = (flank: FlankName): MarkCentre => {
    const { toeHeel, rootFace } = result[flank];
    return toeHeel === null || rootFace === null ? null : { toeHeel, rootFace };
  };
  return { drive: centre('drive'), coast: centre('coast') };
};

const sameMesh = (a: ShownMesh, b: ShownMesh): boolean =>
  a.axleId === b.axleId &&
  a.result.film === b.result.film &&
  (['pinionIn', 'ringAway', 'offsetError', 'shaftAngleError'] as const).every(
    (field) => a.result.pose[field] === b.result.pose[field],
  );

const thinned = (trail: readonly TrailPoint[]): readonly TrailPoint[] =>
  trail.length < MOST_POINTS ? trail : trail.filter((_, index) => index % 2 === 0);

/**
 * Watches changes from their beginning to their end: an end is a set-up that was let go of, with its mesh shown.
 * Returns a function that ends it.
 */
export function followTraces(): () => void {
  /** the mesh at the end of the last change */
  let before: ShownMesh | null = null;
  /** the mesh that was last looked at */
  let seen: ShownMesh | null = null;
  let moving = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  /** The newest one, once nothing has moved for a while. */
  const showFormer = (former: ShownMesh): void => {
    clearTimeout(timer);
    timer = setTimeout(() => useTraces.setState({ former }), FORMER_REST_MS);
  };
  const look = (): void => {
    const { shown, pending } = useMesh.getState();
    if (shown === null) {
      before = null;
      seen = null;
      moving = false;
      clearTimeout(timer);
      return;
    }
    if (shown.axleId !== before?.axleId) {
      before = shown;
      seen = shown;
      moving = false;
      clearTimeout(timer);
      const { former, trail, reset } = useTraces.getState();
      if (former !== null || trail.length > 0) reset();
      return;
    }
    if (shown !== seen) {
      seen = shown;
      if (moving || !sameMesh(shown, before)) {
        const trail = moving ? useTraces.getState().trail : [centresOf(before)];
        moving = true;
        useTraces.setState({ trail: [...thinned(trail), centresOf(shown)] });
      }
    }
    const { live, committed } = useSetup.getState();
    if (!moving || pending || live !== committed) return;
    moving = false;
    if (!sameMesh(shown, before)) showFormer(before);
    before = shown;
  };

  const endings = [
    useMesh.subscribe(look),
    useSetup.subscribe((state, last) => {
      if (state.committed !== last.committed) look();
    }),
  ];
  look();
  return () => {
    clearTimeout(timer);
    for (const end of endings) end();
  };
}
