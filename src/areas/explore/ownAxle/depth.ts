import { type AxleDraft, withEntry } from '../../../state/axleDraft.ts';

export const DEPTHS = ['tapered', 'uniform'] as const;
export type Depth = (typeof DEPTHS)[number];

export const TAPER = 'gearset.tooth.depthTaper';
const METHOD = 'gearset.cut.method';
/** taper of a set that is only known to be tapered */
const USUAL_TAPER = 0.8;

export const depthOf = ({ entries }: AxleDraft): Depth => (entries[TAPER] === 0 ? 'uniform' : 'tapered');

/** What the eye sees of the depth: it sets the taper, and with it how the set was cut as a rule. */
export function withDepth(draft: AxleDraft, depth: Depth): AxleDraft {
  if (depth === depthOf(draft) && draft.given.includes(TAPER)) return draft;
  const cut = withEntry(draft, METHOD, depth === 'uniform' ? 'face-hobbed' : 'face-milled');
  return withEntry(cut, TAPER, depth === 'uniform' ? 0 : USUAL_TAPER);
}
