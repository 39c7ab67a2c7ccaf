/** Where the report and its plots live. */
export const REPORT = new URL('../../docs/validation.md', import.meta.url);
export const IMAGES = new URL('../../docs/images/validation/', import.meta.url);
