/** What all the numbers above do not say. */
export const limitsSection = (): string => `## Limits

Agreement between programs shows that the equations are solved as they are written. It does not show that the equations describe an axle. Not covered by anything on this page: load and bending, wear and lapping, edge contact beyond a border, runout other than a tilted ring, bearing play, generated rings, real machine settings, uneven compound, and film thickness as it is brushed in a workshop. The full list is in [model.md §11](model.md#11-limits).

The practice axles are invented, and so are their limits. For a real axle the maker's manual, local rules and the paint on its own teeth decide, and a qualified person signs off.`;
