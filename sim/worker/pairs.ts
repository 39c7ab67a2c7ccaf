/** The way of a tooth pair through the mesh, read off a solved pose: cheap enough for the app's own thread. */
import { PHASES_PER_PITCH } from '../contact/grid.ts';
import { carryingPair, followPair, pairNumbers, pairSeparation } from '../contact/pairs.ts';

export { carryingPair, followPair, PHASES_PER_PITCH, pairNumbers, pairSeparation };
