/**
 * The only console messages of the production build that are let through: notices of libraries about themselves, which
 * no user sees and we cannot switch off. Each with the reason why it is harmless.
 */
export const LIBRARY_NOTICES: readonly { readonly text: RegExp; readonly why: string }[] = [
  {
    text: /THREE\.(THREE\.)?Clock: This module has been deprecated/,
    why: 'the pinned React renderer for three still uses the old clock; it works the same',
  },
  {
    text: /GL Driver Message .* GPU stall due to ReadPixels/,
    why: 'the graphics driver on reading the picture back, which only the tests do',
  },
];
