/** Numbers that look drawn at random and are the same in every run: the core knows no chance. */
export interface SeededNumbers {
  /** in (0, 1) */
  uniform(): number;
  /** mean 0, standard deviation 1 */
  normal(): number;
}

/** A 32-bit counter scrambled by two rounds of xor and multiply. */
export const seededNumbers = (seed: number): SeededNumbers => {
  let counter = seed >>> 0;
  let spare = Number.NaN;
  const uniform = (): number => {
    counter = (counter + 0x9e3779b9) >>> 0;
    let x = counter;
    x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
    x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
    return (((x ^ (x >>> 15)) >>> 0) + 0.5) / 4294967296;
  };
  const normal = (): number => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { uniform, normal };
};
