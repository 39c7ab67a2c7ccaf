/** Runout of the ring as a pose of the tooth at the mesh: cheap enough for the app's own thread. */
import { awayAtMesh, poseWithRunout, runoutFrame } from '../contact/runout.ts';

export { awayAtMesh, poseWithRunout, runoutFrame };
