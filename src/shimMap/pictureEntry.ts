import * as Comlink from 'comlink';
import { drawGround } from './drawGround.ts';
import { fieldsOf } from './fields.ts';
import { mapLabels } from './mapLabels.ts';
import type { MapPicture, PictureRequest } from './pictureProtocol.ts';
import { regionsOf } from './regions.ts';
import { scalesOf } from './scales.ts';

/** The painting worker's side. */
function paint({ shown, pinionShim, backlash, turning, frame }: PictureRequest): MapPicture {
  const { size, box, colours, words } = frame;
  const fields = fieldsOf(shown, backlash.reads, turning);
  const regions = regionsOf(fields, backlash);
  const scales = scalesOf(fields.plane, pinionShim, box);
  const { width, height, pixelRatio } = size;
  const canvas = new OffscreenCanvas(Math.round(width * pixelRatio), Math.round(height * pixelRatio));
  // drawn by the processor: without a graphics card the other way takes every core for a quarter of a second
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null) throw new Error('no drawing context for the shim map');
  context.scale(canvas.width / width, canvas.height / height);
  drawGround(context, { fields, regions, scales }, colours);
  const picture: MapPicture = {
    fields,
    edges: regions.edges.map(({ flank, edge }) => ({ flank, edge })),
    binds: regions.binds.length > 0,
    labels: mapLabels(fields, backlash, scales, size.em, words),
    ground: canvas.transferToImageBitmap(),
  };
  return Comlink.transfer(picture, [picture.ground]);
}

const api = { paint };

export type PaintingWorkerApi = typeof api;

Comlink.expose(api);
