/**
 * A dial on the heel reads the ring's free play either square to the tooth flank or along the turning direction
 * (docs/model.md §7, backlash). Both come from one free angle of the ring.
 */
export type DialDirection = 'square' | 'tangential';
