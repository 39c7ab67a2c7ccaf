import { expect, type Locator, type Page } from '@playwright/test';
import { PNG } from 'pngjs';
import { Matrix4, Vector3 } from 'three';
import type { FlankName } from '../../../sim/gearset/definition.ts';
import type { GearSolids, SolidDetail } from '../../../sim/gearset/solids.ts';
import { MeshCore } from '../../../sim/worker/core.ts';
import type { SolveResult } from '../../../sim/worker/protocol.ts';
import { packFlank, sampleFlank, TEXEL } from '../../../src/stage/scene/flankTexture.ts';
import { axleOf } from '../../../src/state/axles.ts';
import { seededRandom } from '../../support/random.ts';

export const stageView = (page: Page): Locator =>
  page.getByRole('group', { name: 'Ring and pinion in three dimensions' });

export const chooseHome = async (page: Page, name: string): Promise<void> => {
  await page.getByRole('radio', { name, exact: true }).check({ force: true });
  await atRest(page);
};

/** Waits until nothing on the stage moves. */
export async function atRest(page: Page): Promise<void> {
  await expect(stageView(page)).toHaveAttribute('data-settled', 'true');
}

export async function picture(page: Page): Promise<PNG> {
  return PNG.sync.read(await stageView(page).screenshot());
}

export function solidsHere(axleId: string, detail: SolidDetail): GearSolids {
  const core = new MeshCore();
  const loaded = core.load(axleId, axleOf(axleId).axle.gearset);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.failure));
  const solids = core.solids(axleId, detail);
  if (!solids.ok) throw new Error(JSON.stringify(solids.failure));
  return solids.value;
}

export interface Agreement {
  /** points of the flank compared, and how many of them the solver says are rubbed off */
  readonly points: number;
  readonly rubbed: number;
  /** share whose pixel has exactly the colour the solver's fields ask for; 0 when none is in the picture */
  readonly agreeing: number;
}

/** mm of separation and rad of phase about a border or a line within which a pixel may be blended */
const BORDER = 0.0012;
const LINE = 0.006;
const TIP_BORDER = 0.06;

/** The picture as it stands, with the numbers the stage publishes about its view. */
export interface Look {
  readonly image: PNG;
  readonly viewProjection: Matrix4;
  /** rad by which the tooth looked at stands turned */
  readonly toothAngle: number;
  readonly caption: { readonly right: number; readonly bottom: number } | null;
}

export async function look(page: Page): Promise<Look> {
  const view = stageView(page);
  const attribute = async (name: string) => (await view.getAttribute(name)) ?? '';
  return {
    image: await picture(page),
    viewProjection: new Matrix4().fromArray((await attribute('data-view-projection')).split(' ').map(Number)),
    toothAngle: Number(await attribute('data-tooth-angle')),
    caption: await captionBox(view),
  };
}

/**
 * Points all over the working flank of the tooth looked at, projected into the picture: is each pixel the colour of
 * compound or of the mark that the given solution asks for?
 */
export function compareFlank(
  { image, viewProjection, toothAngle, caption }: Look,
  flank: FlankName,
  solids: GearSolids,
  solution: SolveResult,
  mirrored: boolean,
  colours: { readonly compound: string; readonly mark: string },
): Agreement {
  const place = new Matrix4().makeRotationZ(toothAngle);
  if (mirrored) place.premultiply(new Matrix4().makeScale(1, -1, 1));

  const { positions, flankUv, surfaceKind, indices } = solids.ring.sector;
  const kind = flank === 'drive' ? 1 : 2;
  const { grid } = solution;
  const data = new Float32Array(TEXEL * grid.columns * grid.rows);
  packFlank(data, solution[flank]);
  const random = seededRandom(7);
  const expected = { compound: channels(colours.compound), mark: channels(colours.mark) };

  let points = 0;
  let rubbedPoints = 0;
  let agreeing = 0;
  const point = new Vector3();
  const corner = new Vector3();
  for (let i = 0; i < indices.length; i += 3) {
    const triangle = [indices[i], indices[i + 1], indices[i + 2]];
    if (triangle.some((vertex) => surfaceKind[vertex] !== kind)) continue;
    for (let repeat = 0; repeat < 40; repeat++) {
      let a = random.between(0, 1);
      let b = random.between(0, 1);
      if (a + b > 1) [a, b] = [1 - a, 1 - b];
      const weights = [1 - a - b, a, b];
      let u = 0;
      let v = 0;
      point.set(0, 0, 0);
      triangle.forEach((vertex, k) => {
        u += weights[k] * flankUv[2 * vertex];
        v += weights[k] * flankUv[2 * vertex + 1];
        point.addScaledVector(corner.fromArray(positions, 3 * vertex), weights[k]);
      });
      if (Math.abs(u) > 0.985 || v < -0.97 || v > 0.97) continue;
      const [separation, tip, phase] = sampleFlank(data, grid, u, v);
      if (Math.abs(separation - solution.film) < BORDER || Math.abs(tip) < TIP_BORDER) continue;
      if (onLine(phase, solids.ring.count)) continue;
      point.applyMatrix4(place).applyMatrix4(viewProjection);
      const x = Math.floor((point.x * 0.5 + 0.5) * image.width);
      const y = Math.floor((0.5 - point.y * 0.5) * image.height);
      if (x < 1 || y < 1 || x >= image.width - 1 || y >= image.height - 1) continue;
      if (caption !== null && x < caption.right && y < caption.bottom) continue;
      const rubbed = separation <= solution.film && tip >= 0;
      const wanted = rubbed ? expected.mark : expected.compound;
      const at = 4 * (y * image.width + x);
      const off = Math.max(...wanted.map((value, k) => Math.abs(value - image.data[at + k])));
      points += 1;
      if (rubbed) rubbedPoints += 1;
      if (off <= 2) agreeing += 1;
    }
  }
  return { points, rubbed: rubbedPoints, agreeing: points === 0 ? 0 : agreeing / points };
}

/** The gears stand at ring angle 0: lines lie where the phase is a whole number of pitches. */
function onLine(phase: number, teeth: number): boolean {
  const pitch = (2 * Math.PI) / teeth;
  return Math.abs(phase - pitch * Math.round(phase / pitch)) < LINE;
}

async function captionBox(view: Locator): Promise<{ right: number; bottom: number } | null> {
  const caption = view.getByText('square on');
  if ((await caption.count()) === 0) return null;
  const [outer, inner] = await Promise.all([view.boundingBox(), caption.first().locator('..').boundingBox()]);
  if (outer === null || inner === null) return null;
  return { right: inner.x + inner.width - outer.x + 2, bottom: inner.y + inner.height - outer.y + 2 };
}

const channels = (hex: string): number[] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
