import type { AxleDefinition } from './axle.ts';

/** One axle on its way from device to device. `key` names it wherever it goes, so that links to it open there too. */
export interface AxleFile {
  readonly key: string;
  readonly axle: AxleDefinition;
}

export const AXLE_FILE_FORMAT = 'axle';
export const AXLE_FILE_VERSION = 1;
export const AXLE_KEY = /^[a-z0-9]{8}$/;

/** The one written form of an own axle: in files and on the device. Read by `parseAxleFile`. */
export const axleFileJson = ({ key, axle }: AxleFile) => ({
  format: AXLE_FILE_FORMAT,
  version: AXLE_FILE_VERSION,
  key,
  axle,
});
