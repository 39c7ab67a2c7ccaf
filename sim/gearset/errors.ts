/** Why a gear set cannot be made; each code has one cause and one way out (docs/model.md §1, §4, §6). */
export type UnmakeableCode =
  | 'bad-value'
  | 'no-pitch-point'
  | 'no-pitch-angle-for-cutter'
  | 'blade-angle'
  | 'point-width'
  | 'top-land-ring'
  | 'top-land-pinion'
  | 'ease-off-not-a-hill'
  | 'no-contact-root'
  | 'undercut';

/**
 * A gear set that no cutter could make or that could not mesh.
 * `field` is the dotted path in the gear-set definition to change first, `value` what was found,
 * `allowed` what would do, in words.
 */
export class UnmakeableError extends Error {
  readonly code: UnmakeableCode;
  readonly field: string;
  readonly value: string;
  readonly allowed: string;

  constructor(code: UnmakeableCode, field: string, value: string, allowed: string) {
    super(`${field}: ${value}; ${allowed}`);
    this.name = 'UnmakeableError';
    this.code = code;
    this.field = field;
    this.value = value;
    this.allowed = allowed;
  }
}
