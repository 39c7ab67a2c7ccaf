import type { WorkerFailure } from '../../../../sim/worker/protocol.ts';

/** Why there is no answer: the field, what was found, what is allowed. */
export function failureReason(failure: WorkerFailure): string {
  switch (failure.kind) {
    case 'internal':
      return failure.message;
    case 'not-loaded':
      return failure.gearSetId;
    default:
      return `${failure.field}: ${failure.value}. ${failure.allowed}.`;
  }
}
