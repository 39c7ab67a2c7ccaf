import { create } from 'zustand';

/** Where the camera goes when it is sent home. */
export const CAMERA_HOMES = ['whole', 'mesh', 'drive', 'coast'] as const;
export type CameraHome = (typeof CAMERA_HOMES)[number];

/** How the mesh is looked at: part of a link, not of undo. */
export interface View {
  readonly camera: CameraHome;
  /** lines of equal separation on the flank maps */
  readonly contours: boolean;
}

export const DEFAULT_VIEW: View = { camera: 'mesh', contours: false };

export interface ViewStore extends View {
  /** counts the times a home was asked for, so that asking twice brings a wandered camera back */
  readonly cameraCall: number;
  /** the ring turns slowly by itself */
  readonly rolling: boolean;
  readonly goHome: (camera: CameraHome) => void;
  readonly setContours: (contours: boolean) => void;
  readonly setRolling: (rolling: boolean) => void;
  readonly reset: () => void;
}

export const useView = create<ViewStore>()((set) => ({
  ...DEFAULT_VIEW,
  cameraCall: 0,
  rolling: false,
  goHome: (camera) => set((state) => ({ camera, cameraCall: state.cameraCall + 1 })),
  setContours: (contours) => set({ contours }),
  setRolling: (rolling) => set({ rolling }),
  reset: () => set((state) => ({ ...DEFAULT_VIEW, rolling: false, cameraCall: state.cameraCall + 1 })),
}));
