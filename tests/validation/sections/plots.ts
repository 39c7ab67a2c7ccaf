/** The plots that belong to no table. */
export const plotsSection = (): string => `## Plots

![Path of the mark's centre on both flanks as pinion or ring moves, one face-milled and one face-hobbed axle](images/validation/patch-path.svg)

The same move sends the two flanks, and the two cutting methods, different ways. The end labels are the move in mm.

![Square dial reading of the practice axles against ring and pinion moves](images/validation/dial-reading.svg)

![Transmission error over one pitch, one face-milled and one face-hobbed axle](images/validation/transmission-error.svg)

Each arch is one tooth pair; where two arches cross, the load passes on to the next pair.`;
