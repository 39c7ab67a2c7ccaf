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
  readonly goHome: (camera: CameraHome) => void;
  readonly setContours: (contours: boolean) => void;
  readonly reset: () => void;
}

export const useView = create<ViewStore>()((set) => ({
  ...DEFAULT_VIEW,
  goHome: (camera) => set({ camera }),
  setContours: (contours) => set({ contours }),
  reset: () => set(DEFAULT_VIEW),
}));
