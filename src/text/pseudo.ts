const ACCENTED: Readonly<Record<string, string>> = {
  a: 'á',
  e: 'é',
  i: 'í',
  o: 'ö',
  u: 'ü',
  A: 'Â',
  E: 'É',
  I: 'Î',
  O: 'Ø',
  U: 'Û',
};

/**
 * A message about a third longer than the English one, with accents on vowels outside `{…}` and marked at both ends:
 * shows on screen what a longer language would overflow, and any text that does not come from the catalogue.
 */
export function stretchMessage(message: string): string {
  let depth = 0;
  let visible = 0;
  let out = '';
  for (const character of message) {
    if (character === '{') depth += 1;
    if (depth === 0) visible += 1;
    out += depth === 0 ? (ACCENTED[character] ?? character) : character;
    if (character === '}') depth -= 1;
  }
  return `⟦${out}${'·'.repeat(Math.ceil(visible / 3))}⟧`;
}
