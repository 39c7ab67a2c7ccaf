/**
 * Keys that stand twice in one object of a JSON text, as dotted paths. JSON.parse keeps the last of them and says
 * nothing, so one of two numbers would be dropped unseen. `text` must be JSON that JSON.parse takes.
 */
export function duplicateKeys(text: string): readonly string[] {
  const found: string[] = [];
  /** keys met so far of every object that is open; null for a list */
  const open: (Set<string> | null)[] = [];
  const path: string[] = [];
  for (const [token, word, colon] of text.matchAll(TOKENS)) {
    if (token === '{' || token === '[') {
      open.push(token === '{' ? new Set() : null);
      path.push('');
    } else if (token === '}' || token === ']') {
      open.pop();
      path.pop();
    } else if (word !== undefined && colon !== undefined) {
      const keys = open.at(-1);
      const key = String(JSON.parse(word));
      path[path.length - 1] = key;
      if (keys?.has(key)) found.push(path.filter((part) => part !== '').join('.'));
      keys?.add(key);
    }
  }
  return found;
}

/** Brackets, and texts with the colon that makes them a key. */
const TOKENS = /[{}[\]]|("(?:[^"\\]|\\.)*")(\s*:)?/g;
