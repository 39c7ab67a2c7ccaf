import { POSE_COUNT } from './poseBasis.ts';
import { FILM_AT, type Layout } from './unknowns.ts';

/**
 * The unknowns whose probability has any shape: pose and present film. All others follow them: where those stand, what was
 * seen leaves the others a narrow bell (docs/model.md §12). Indices into the vector of unknowns.
 */
export const leadingOf = ({ films }: Layout): readonly number[] => [
  ...Array.from({ length: POSE_COUNT }, (_, i) => i),
  FILM_AT + films - 1,
];

/** films of earlier looks, thickness, ease-off of both flanks */
export const followingOf = (layout: Layout): readonly number[] => {
  const leading = leadingOf(layout);
  return Array.from({ length: layout.count }, (_, i) => i).filter((i) => !leading.includes(i));
};
