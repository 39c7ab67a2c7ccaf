import type { AxleDefinition } from '../../models/axle.ts';
import type { Outcome } from '../../sim/worker/protocol.ts';
import type { ShownShimMap } from '../state/shimMap.ts';
import type { GroundColours } from './drawGround.ts';
import type { MapFields } from './fields.ts';
import type { MapLabel, MapWords } from './mapLabels.ts';
import type { EdgeRegion } from './regions.ts';
import type { PlotBox } from './scales.ts';
import type { BoxSize } from './useBoxSize.ts';

/** What a picture of a map is drawn for: the place on the screen, colours and words. */
export interface MapFrame {
  readonly size: BoxSize;
  readonly box: PlotBox;
  readonly colours: GroundColours;
  readonly words: MapWords;
}

export interface PictureRequest {
  readonly shown: ShownShimMap;
  readonly pinionShim: AxleDefinition['pinionShim'];
  readonly backlash: AxleDefinition['limits']['backlash'];
  /** mm along the turning direction read as 1 mm square to the flank */
  readonly turning: number;
  readonly frame: MapFrame;
}

/** What is drawn of a map, and what it can be asked. */
export interface MapPicture {
  readonly fields: MapFields;
  /** edges that a mark touches somewhere on the map */
  readonly edges: readonly Pick<EdgeRegion, 'flank' | 'edge'>[];
  /** do the teeth bind somewhere on it? */
  readonly binds: boolean;
  /** px of the frame */
  readonly labels: readonly MapLabel[];
  /** the coloured ground, device pixels of the frame */
  readonly ground: ImageBitmap;
}

/** Works out pictures away from the page's own thread: drawing one takes as long as several steps of a slider. */
export interface MapPainter {
  /** Null when `signal` is aborted first. */
  paint(request: PictureRequest, signal: AbortSignal): Promise<Outcome<MapPicture> | null>;
}
