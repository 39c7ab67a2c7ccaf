import { Button, Choice } from '../../../app/ui/controls.tsx';
import { CUTS, GEARS, type Look, SURENESSES, useLook } from '../../../state/look.ts';
import { useText } from '../../../text/useText.ts';
import styles from './inputs.module.css';

/** What kind of look it was: it decides how much the program may make of it. */
export function LookKind({ look }: { readonly look: Look }) {
  const t = useText();
  const change = (part: Partial<Look>) => useLook.getState().change(look.axleId, part);
  return (
    <section className={styles.block} aria-label={t('match.inputs')}>
      <div className={styles.row}>
        <span aria-hidden="true">{t('match.gears.title')}</span>
        <Choice
          label={t('match.gears.title')}
          name="look-gears"
          options={GEARS.map((value) => ({ value, text: t(`match.gears.${value}`) }))}
          value={look.gears}
          onChoose={(gears) => change({ gears })}
        />
      </div>
      {look.gears === 'used' && <Recorded look={look} />}
      <div className={styles.row}>
        <span aria-hidden="true">{t('match.sureness.title')}</span>
        <Choice
          label={t('match.sureness.title')}
          name="look-sureness"
          options={SURENESSES.map((value) => ({ value, text: t(`match.sureness.${value}`) }))}
          value={look.sureness}
          onChoose={(sureness) => change({ sureness })}
        />
      </div>
      <div className={styles.row}>
        <span aria-hidden="true">{t('match.cut.title')}</span>
        <Choice
          label={t('match.cut.title')}
          name="look-cut"
          options={CUTS.map((value) => ({ value, text: t(`match.cut.${value}`) }))}
          value={look.cut}
          onChoose={(cut) => change({ cut })}
        />
      </div>
    </section>
  );
}

/** The pattern a used set goes back to. */
function Recorded({ look }: { readonly look: Look }) {
  const t = useText();
  const { drive, coast, readings, sureness, recorded, axleId } = look;
  const put = (next: Look['recorded']) => useLook.getState().change(axleId, { recorded: next });
  return (
    <div className={styles.recorded}>
      <p className={styles.why}>{t(recorded === null ? 'match.used.none' : 'match.used.kept')}</p>
      <Button onPress={() => put({ drive, coast, readings, sureness })}>{t('match.used.keep')}</Button>
      {recorded !== null && (
        <Button quiet onPress={() => put(null)}>
          {t('match.used.forget')}
        </Button>
      )}
    </div>
  );
}
