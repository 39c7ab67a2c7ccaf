/** How a mark slants, read off a solved pose: cheap enough for the app's own thread. */
import { markTilt } from '../contact/markTilt.ts';

export { markTilt };
