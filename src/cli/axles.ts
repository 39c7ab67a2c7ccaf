import { AXLE_IDS, AXLES } from '../../models/index.ts';
import type { SideDevice } from '../../sim/assembly/hardware.ts';

const sideWords = (side: SideDevice): string =>
  side.kind === 'adjuster' ? 'adjuster' : side.kind.replace('-', ' ');

/** The practice axles, one a line, columns apart by tabs: name, teeth, cut, hand, ring diameter, pinion shim, sides. */
export function axles(): string {
  const lines = AXLE_IDS.map((id) => {
    const { gearset, hand, pinionShim, sides, spacer } = AXLES[id];
    return [
      id,
      `${gearset.pinionTeeth}:${gearset.ringTeeth}`,
      gearset.cut.method,
      hand,
      `ring ${gearset.ringOuterDiameter} mm`,
      `pinion shim ${pinionShim.place}`,
      `${sideWords(sides.ringSide)} / ${sideWords(sides.oppositeSide)}`,
      spacer.kind,
      'fictional',
    ].join('\t');
  });
  return `${lines.join('\n')}\n`;
}
