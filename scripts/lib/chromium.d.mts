export const CHROMIUM_ARGS: string[];
export function findChromium(): Promise<string | undefined>;
export function ensureChromium(): Promise<string>;
