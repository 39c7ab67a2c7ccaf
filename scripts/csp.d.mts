export const META_POLICY: string;
export const HEADER_POLICY: string;
