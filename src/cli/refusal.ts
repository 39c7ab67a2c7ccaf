import type { Problem } from '../../models/problem.ts';

/** Input that cannot be used: one line on stderr, exit 2. */
export class Refusal extends Error {
  readonly problem: Problem;
  /** further problems of the same input, not told one by one */
  readonly more: number;

  constructor(problem: Problem, more = 0) {
    super(problem.field);
    this.name = 'Refusal';
    this.problem = problem;
    this.more = more;
  }
}

/** @throws Refusal always */
export function refuse(field: string, value: string, allowed: string): never {
  throw new Refusal({ field, value, allowed });
}
