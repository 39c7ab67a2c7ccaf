import { IntlMessageFormat } from 'intl-messageformat';
import { type Catalogue, ENGLISH, type TextArguments, type TextKey } from './catalogue.ts';
import { stretchMessage } from './pseudo.ts';

/** `pseudo` stretches every message by a third and marks both ends, to show what would be cut in a longer language. */
export const LOCALES = ['en', 'pseudo'] as const;
export type Locale = (typeof LOCALES)[number];

export type Translate = <K extends TextKey>(
  key: K,
  ...args: keyof TextArguments<K> extends never ? [] : [TextArguments<K>]
) => string;

const messages: Partial<Record<TextKey, string>> = { ...ENGLISH };

/** For a part of the app that is loaded when it is needed: called by its module before anything of it is shown. */
export function addTexts(texts: Partial<Catalogue>): void {
  Object.assign(messages, texts);
}

/** Text for a key; messages are parsed on first use and kept. */
export function createTranslate(locale: Locale): Translate {
  const parsed = new Map<TextKey, IntlMessageFormat>();
  return (key, ...args) => {
    let message = parsed.get(key);
    if (message === undefined) {
      const english = messages[key];
      if (english === undefined) throw new RangeError(`text: no message for ${key} is loaded`);
      const source = locale === 'pseudo' ? stretchMessage(english) : english;
      message = new IntlMessageFormat(source, 'en', undefined, { ignoreTag: true });
      parsed.set(key, message);
    }
    return String(message.format(args[0] as Record<string, string | number | Date> | undefined));
  };
}
