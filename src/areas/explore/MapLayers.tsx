import { lazy, Suspense } from 'react';
import { ArrowLayer } from '../../flank/ArrowLayer.tsx';
import type { MapFrame } from '../../flank/FlankMap.tsx';
import { GhostLayer } from '../../flank/GhostLayer.tsx';
import { TrailLayer } from '../../flank/TrailLayer.tsx';
import { axleOf } from '../../state/axles.ts';
import { useDial } from '../../state/dial.ts';
import { useMesh } from '../../state/mesh.ts';
import { usePatchMoves } from '../../state/patchMoves.ts';
import { usePreferences } from '../../state/preferences.ts';
import { useTraces } from '../../state/traces.ts';
import { useUnknowns } from '../../state/unknowns.ts';
import { useView } from '../../state/view.ts';
import { moves as texts } from '../../text/en/moves.ts';
import { addTexts } from '../../text/translate.ts';
import { drawnMoves } from './drawnMoves.ts';

addTexts(texts);

const SpreadLayer = lazy(async () => ({
  default: (await import('./unknowns/SpreadLayer.tsx')).SpreadLayer,
}));
const PlaceLayer = lazy(async () => ({ default: (await import('./dial/PlaceLayer.tsx')).PlaceLayer }));

/** What lies over the mark: the former one, its way from there, where it would go. Each is drawn only when it is on. */
export function MapLayers({ frame }: { readonly frame: MapFrame }) {
  const traces = usePreferences((state) => state.traces);
  const arrows = useView((state) => state.arrows);
  const placed = useDial((state) => state.place !== null);
  const former = useTraces((state) => state.former);
  const varied = useUnknowns((state) => state.on);
  const isOwn = useMesh((state) => state.shown !== null && axleOf(state.shown.axleId).key !== null);
  const spread = varied && isOwn;
  return (
    <>
      {traces && former !== null && <GhostLayer frame={frame} former={former.result} />}
      {traces && <TrailLayer frame={frame} />}
      {/* the spread has arrows of its own, with what they may be */}
      {arrows && !spread && <Arrows frame={frame} />}
      {spread && (
        <Suspense fallback={null}>
          <SpreadLayer frame={frame} />
        </Suspense>
      )}
      {placed && (
        <Suspense fallback={null}>
          <PlaceLayer frame={frame} />
        </Suspense>
      )}
    </>
  );
}

/** Arrows belong to one mesh: while another is shown there are none. */
function Arrows({ frame }: { readonly frame: MapFrame }) {
  const shown = usePatchMoves((state) => state.shown);
  const atRest = useMesh((state) => state.shown === shown?.of);
  if (shown === null || !atRest) return null;
  const { flanks, times } = drawnMoves(shown);
  const { centre, moves } = flanks[frame.flank];
  return centre === null ? null : <ArrowLayer frame={frame} centre={centre} moves={moves} times={times} />;
}
