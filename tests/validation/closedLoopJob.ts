import { isAxleId } from '../../models/index.ts';
import { loopRowOf } from './sections/diagnoseClosedLoop.ts';

/** Rows of the closed-loop table for the axles named, as JSON on stdout: run by validate.ts beside the rest. */
const rows = process.argv.slice(2).map((id) => {
  if (!isAxleId(id)) throw new Error(`${id}: not a practice axle`);
  return [id, loopRowOf(id)] as const;
});
process.stdout.write(JSON.stringify(Object.fromEntries(rows)));
