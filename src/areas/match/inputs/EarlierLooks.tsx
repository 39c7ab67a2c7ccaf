import { Button } from '../../../app/ui/controls.tsx';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { axleOf } from '../../../state/axles.ts';
import { type Look, useLook } from '../../../state/look.ts';
import { useText } from '../../../text/useText.ts';
import { shimsWords } from '../shimsWords.ts';
import styles from './inputs.module.css';

/** The looks before this one, by what was fitted then; nothing while there are none. */
export function EarlierLooks({ look }: { readonly look: Look }) {
  const t = useText();
  const lengths = useLengths();
  const { axle } = axleOf(look.axleId);
  const { earlier } = look;
  if (earlier.length === 0) return null;
  const forget = (index: number) =>
    useLook.getState().change(look.axleId, { earlier: earlier.filter((_, k) => k !== index) });
  return (
    <section className={styles.block} aria-label={t('match.earlier.title')}>
      <header className={styles.head}>
        <h3>{t('match.earlier.title')}</h3>
      </header>
      <p className={styles.why}>{t('match.earlier.why')}</p>
      <ol className={styles.earlier}>
        {earlier.map(({ fitment }, index) => {
          const shims = shimsWords(fitment, axle, lengths, t);
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a look is its place in the row
            <li key={index}>
              <span>{shims}</span>
              <Button quiet onPress={() => forget(index)}>
                {t('match.earlier.forget')}{' '}
                <span className="visually-hidden">{t('match.earlier.forget.which', { shims })}</span>
              </Button>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
