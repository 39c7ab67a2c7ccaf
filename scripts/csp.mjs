/**
 * The one statement of what a page of ours may load. The build writes it into index.html, so that it holds on any
 * static host; our own server sends it as a header as well.
 */
const DIRECTIVES = {
  'default-src': ["'none'"],
  'script-src': ["'self'"],
  'style-src': ["'self'"],
  // blob: and data: carry what the user made on this device: a photo being matched, a picture being exported
  'img-src': ["'self'", 'data:', 'blob:'],
  'media-src': ["'self'", 'blob:'],
  'font-src': ["'self'"],
  'connect-src': ["'self'"],
  'worker-src': ["'self'"],
  'manifest-src': ["'self'"],
  'base-uri': ["'none'"],
  'form-action': ["'none'"],
};

/** Browsers ignore these in a <meta> and complain about them, so they travel only as a header. */
const HEADER_ONLY = { 'frame-ancestors': ["'none'"] };

const spell = (directives) =>
  Object.entries(directives)
    .map(([name, sources]) => `${name} ${sources.join(' ')}`)
    .join('; ');

export const META_POLICY = spell(DIRECTIVES);
export const HEADER_POLICY = spell({ ...DIRECTIVES, ...HEADER_ONLY });
