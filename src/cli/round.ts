/** Numbers with at most six decimals: nanometres, microdegrees; what is not finite becomes null. For printing only. */
export function roundNumbers(value: unknown): unknown {
  if (typeof value === 'number') return Number.isFinite(value) ? Math.round(value * 1e6) / 1e6 + 0 : null;
  if (Array.isArray(value)) return value.map(roundNumbers);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, roundNumbers(inner)]));
}
