import { createContext, useContext } from 'react';
import { createTranslate, type Locale, type Translate } from './translate.ts';

const english = createTranslate('en');

/** The translator in force; English unless the shell provides another. */
export const TextContext = createContext<Translate>(english);

/** `const t = useText(); t('flank.name.drive')` */
export function useText(): Translate {
  return useContext(TextContext);
}

/** The translator for a locale, for the shell and for code outside React. */
export function translateFor(locale: Locale): Translate {
  return locale === 'en' ? english : createTranslate(locale);
}
