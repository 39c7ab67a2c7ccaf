import { create } from 'zustand';

/** Where the camera goes when it is sent home. */
export const CAMERA_HOMES = ['whole', 'mesh', 'drive', 'coast'] as const;
export type CameraHome = (typeof CAMERA_HOMES)[number];

/** What the large picture shows beside the flank maps. */
export const PICTURES = ['gears', 'dial', 'housing', 'shim-map', 'curves', 'side-by-side'] as const;
export type Picture = (typeof PICTURES)[number];

/** How the mesh is looked at: part of a link, not of undo. */
export interface View {
  readonly picture: Picture;
  readonly camera: CameraHome;
  /** lines of equal separation on the flank maps */
  readonly contours: boolean;
  /** where one step of each adjustment takes the marks, on the flank maps */
  readonly arrows: boolean;
}

export const DEFAULT_VIEW: View = { picture: 'gears', camera: 'mesh', contours: false, arrows: false };

export interface ViewStore extends View {
  readonly showPicture: (picture: Picture) => void;
  readonly goHome: (camera: CameraHome) => void;
  readonly setContours: (contours: boolean) => void;
  readonly setArrows: (arrows: boolean) => void;
  readonly reset: () => void;
}

export const useView = create<ViewStore>()((set) => ({
  ...DEFAULT_VIEW,
  showPicture: (picture) => set({ picture }),
  goHome: (camera) => set({ camera }),
  setContours: (contours) => set({ contours }),
  setArrows: (arrows) => set({ arrows }),
  reset: () => set(DEFAULT_VIEW),
}));
