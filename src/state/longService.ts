import { createLongService } from '../../sim/worker/longClient.ts';
import type { LongService } from '../../sim/worker/longProtocol.ts';
import { whenPageRests } from './pageRest.ts';

let service: LongService | null = null;

/** The second worker, started when first asked for: who only moves shims never pays for it. */
export function longService(): LongService {
  service ??= createLongService({ beforePiece: whenPageRests });
  return service;
}
