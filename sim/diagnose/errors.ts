/** An observation that cannot be used: which field, what was found, what would do. */
export class ObservationError extends Error {
  readonly field: string;
  readonly value: string;
  readonly allowed: string;

  constructor(field: string, value: unknown, allowed: string) {
    super(`${field}: ${String(value)}; allowed: ${allowed}`);
    this.name = 'ObservationError';
    this.field = field;
    this.value = String(value);
    this.allowed = allowed;
  }
}
