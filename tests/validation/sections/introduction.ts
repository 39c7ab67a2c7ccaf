import { NAMED_SETS } from '../../support/namedSets.ts';
import { METHODS } from '../randomSets.ts';

const named = (method: string): string =>
  NAMED_SETS.filter(({ definition }) => definition.cut.method === method)
    .map(({ label }) => label)
    .join(', ');

/** What this document is and how it is made. */
export const introduction = (): string => `# Validation

**Verified against independent computation. NOT validated against a measured axle.** The solver agrees with worked numbers from an independent program and with a brute-force contact search written apart from it. Nobody has yet held its answers against marking compound on real teeth. How far a real axle differs is not known.

Every number, table and plot below is computed by \`npm run validate\`, which overwrites this page and its plots; no number here is typed. All drawing is seeded, so a second run gives the same page. \`npm test\` recomputes the quick parts and fails when this page does not hold the same text. Equations, symbols and names of quantities: [model.md](model.md). Sets a and b are the worked sets (\`tests/fixtures/reference/\`); Aldra, Borrin, Cavel, Dornet and Elspar are the fictional practice axles (\`models/\`). By cut method: ${METHODS.map((method) => `${method} ${named(method)}`).join('; ')}.

Unless a table says otherwise, the grid is the display grid of 61 × 31 nodes per flank and the film 0.00635 mm. Patch centres, lengths and heights are in flank coordinates: half a face width along the tooth, half a working height across it (−1 toe, +1 heel; −1 working root, +1 face).`;
