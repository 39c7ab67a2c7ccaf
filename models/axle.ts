import type { DialDirection } from '../sim/assembly/dial.ts';
import type { AxleHardware } from '../sim/assembly/hardware.ts';
import type { GearSetDefinition } from '../sim/gearset/definition.ts';

export type SealState = 'in' | 'out';

/** What the axle's manual would ask for. A dial limit says how the dial is held, a torque limit whether the seal is in. */
export interface AxleLimits {
  readonly backlash: {
    /** mm */
    readonly min: number;
    /** mm */
    readonly max: number;
    readonly reads: DialDirection;
    /** mm, most difference between places round the ring */
    readonly variation: number;
  };
  readonly ringRunout: {
    /** mm, full indicator reading at the ring's back face */
    readonly max: number;
  };
  /** Rotating (not starting) torque of the pinion in its new bearings, without the carrier. */
  readonly pinionTorque: { readonly min_Nm: number; readonly max_Nm: number; readonly seal: SealState };
  /** What the preloaded carrier adds to it, measured at the pinion. */
  readonly carrierPreload: { readonly min_Nm: number; readonly max_Nm: number };
}

/** One axle: `models/*.json`. */
export interface AxleDefinition extends AxleHardware {
  readonly name: string;
  /** true: invented for practice; no real axle has these numbers */
  readonly fictional: boolean;
  readonly description: string;
  readonly gearset: GearSetDefinition;
  readonly limits: AxleLimits;
  /** mm, thickness of marking compound left between the flanks where the mark ends */
  readonly film_mm: number;
}
