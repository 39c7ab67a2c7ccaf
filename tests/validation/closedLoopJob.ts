import { isAxleId } from '../../models/index.ts';
import { loopRowOf } from './sections/diagnoseClosedLoop.ts';

/** Row of the closed-loop table for the axle named, as JSON on stdout: run by validate.ts beside the rest. */
const [id] = process.argv.slice(2);
if (!isAxleId(id)) throw new Error(`${id}: not a practice axle`);
process.stdout.write(JSON.stringify(loopRowOf(id)));
