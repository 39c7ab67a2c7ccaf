import type { EdgeName } from '../../sim/worker/protocol.ts';
import type { MapFields } from './fields.ts';
import { HATCH_SPACING, HATCH_STROKES, HATCH_TURNS } from './hatching.ts';
import { linePathOf, OFF_HOME_STEPS, type Outlines, pathOf, type Regions } from './regions.ts';
import type { PlotBox, Scales } from './scales.ts';

/** What the ground is drawn with, as CSS colours. */
export interface GroundColours {
  /** at home first, one more than OFF_HOME_STEPS */
  readonly bands: readonly string[];
  readonly paper: string;
  readonly ink: string;
  readonly soft: string;
  readonly deep: string;
}

/** Colours of the map as its style sheet gives them. */
export function groundColours(element: Element): GroundColours {
  const style = getComputedStyle(element);
  const colour = (name: string) => style.getPropertyValue(name).trim();
  return {
    bands: Array.from({ length: OFF_HOME_STEPS.length + 1 }, (_, k) => colour(`--band-${k}`)),
    paper: colour('--paper'),
    ink: colour('--paper-ink'),
    soft: colour('--paper-soft'),
    deep: colour('--paper-deep'),
  };
}

/** Share of the paper over what is outside the limits. */
const VEIL = 0.72;

/**
 * The coloured ground: marks off home in bands, what is outside the limits pale, edge contact hatched, binding barred.
 * Units of the drawing are CSS px.
 */
export function drawGround(
  context: CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D,
  { fields, regions, scales }: { fields: MapFields; regions: Regions; scales: Scales },
  { bands, paper, ink, soft, deep }: GroundColours,
): void {
  const { box } = scales;
  const area = (outlines: Outlines) => new Path2D(pathOf(outlines, scales));
  const border = (outlines: Outlines) => new Path2D(linePathOf(outlines, fields, scales));
  const fill = (path: Path2D, colour: string) => {
    context.fillStyle = colour;
    context.fill(path, 'evenodd');
  };
  const stroke = (path: Path2D, colour: string, width: number) => {
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.stroke(path);
  };
  const within = (path: Path2D, draw: () => void) => {
    context.save();
    context.clip(path, 'evenodd');
    draw();
    context.restore();
  };

  context.save();
  context.lineJoin = 'round';
  const plot = new Path2D();
  plot.rect(box.left, box.top, box.width, box.height);
  context.clip(plot);
  fill(plot, bands[0]);
  regions.offHome.forEach((outlines, k) => {
    fill(area(outlines), bands[k + 1]);
  });
  for (const { flank, edge, outlines } of regions.edges) {
    within(area(outlines), () => {
      const { width, dashes } = HATCH_STROKES[flank];
      context.setLineDash([...dashes]);
      stroke(hatching(edge, box), ink, width);
    });
    stroke(border(outlines), ink, 1.2);
  }
  const [below, above, binds] = [regions.below, regions.above, regions.binds].map(area);
  context.globalAlpha = VEIL;
  fill(below, paper);
  fill(above, paper);
  context.globalAlpha = 1;
  fill(area(regions.unknown), deep);
  fill(binds, ink);
  within(binds, () => stroke(crosses(box), soft, 1.5));
  for (const outlines of [regions.below, regions.above]) stroke(border(outlines), paper, 6);
  for (const outlines of [regions.below, regions.above]) stroke(border(outlines), ink, 2.8);
  stroke(border(regions.binds), paper, 2);
  context.restore();
}

/** Parallel lines over the whole box, as `Hatches` draws them in the legend. */
function hatching(edge: EdgeName, { left, top, width, height }: PlotBox): Path2D {
  const path = new Path2D();
  const turn = (HATCH_TURNS[edge] * Math.PI) / 180;
  const [along, across] = [
    [Math.cos(turn), Math.sin(turn)],
    [-Math.sin(turn), Math.cos(turn)],
  ];
  const reach = Math.hypot(width, height) / 2;
  const [x, y] = [left + width / 2, top + height / 2];
  for (let step = -reach; step <= reach; step += HATCH_SPACING) {
    const [cx, cy] = [x + across[0] * step, y + across[1] * step];
    path.moveTo(cx - along[0] * reach, cy - along[1] * reach);
    path.lineTo(cx + along[0] * reach, cy + along[1] * reach);
  }
  return path;
}

const CROSS = { every: 12, half: 4 };

function crosses({ left, top, width, height }: PlotBox): Path2D {
  const path = new Path2D();
  for (let x = left + CROSS.every / 2; x < left + width + CROSS.half; x += CROSS.every) {
    for (let y = top + CROSS.every / 2; y < top + height + CROSS.half; y += CROSS.every) {
      path.moveTo(x - CROSS.half, y - CROSS.half);
      path.lineTo(x + CROSS.half, y + CROSS.half);
      path.moveTo(x + CROSS.half, y - CROSS.half);
      path.lineTo(x - CROSS.half, y + CROSS.half);
    }
  }
  return path;
}
