import type { WorkerFailure } from '../../sim/worker/protocol.ts';
import { useAxleDesk } from '../state/axleDesk.ts';
import { useMesh } from '../state/mesh.ts';
import { type LinkProblem, type Notice, useNotices } from '../state/notices.ts';
import { COMPOUND_COLOURS, COMPOUNDS, usePreferences } from '../state/preferences.ts';
import { undoSetup } from '../state/setup.ts';
import type { Translate } from '../text/translate.ts';
import { useText } from '../text/useText.ts';
import styles from './Notices.module.css';
import { Button, IconButton } from './ui/controls.tsx';
import { Icon } from './ui/Icon.tsx';

/** What the app has to say, in a row of its own: nothing is covered by it. */
export function Notices() {
  const t = useText();
  const notices = useNotices((state) => state.notices);
  const failure = useMesh((state) => state.failure);
  const compoundIsKnown = usePreferences((state) => state.compound !== null);
  return (
    <section className={styles.notices} aria-label={t('app.notice.label')}>
      <div role="alert">{failure !== null && <FailureNotice failure={failure} />}</div>
      <div role="status">
        {notices.map((notice) => (
          <NoticeLine key={notice.id} notice={notice} />
        ))}
      </div>
      {!compoundIsKnown && <CompoundQuestion />}
    </section>
  );
}

function NoticeLine({ notice }: { readonly notice: Notice }) {
  const t = useText();
  return (
    <div className={styles.notice}>
      <Icon name="caution" />
      {notice.kind === 'plain' ? (
        <p className={styles.text}>{t(notice.text)}</p>
      ) : notice.kind === 'own-axle-missing' ? (
        <>
          <p className={styles.text}>{t('app.link.ownAxle.missing')}</p>
          <Button onPress={() => useAxleDesk.getState().show('list')}>{t('app.link.ownAxle.import')}</Button>
        </>
      ) : (
        <div className={styles.text}>
          <p>
            <strong>{t('app.link.title')}</strong> {t('app.link.rest')}
          </p>
          <details>
            <summary className={styles.summary}>{t('app.link.details')}</summary>
            <ul className={styles.problems}>
              {notice.problems.map((problem) => (
                <li key={`${problem.part} ${problem.found}`}>
                  {t('app.link.problem', {
                    part: problem.part,
                    found: problem.found,
                    allowed: allowedWords(problem.allowed, t),
                  })}
                </li>
              ))}
            </ul>
          </details>
        </div>
      )}
      <IconButton
        icon="close"
        label={t('app.notice.dismiss')}
        onPress={() => useNotices.getState().dismiss(notice.id)}
      />
    </div>
  );
}

export function allowedWords(allowed: LinkProblem['allowed'], t: Translate): string {
  switch (allowed.kind) {
    case 'number':
      return allowed.unit === 'notch'
        ? t('app.link.allowed.notches', { least: round(allowed.least), most: round(allowed.most) })
        : t('app.link.allowed.number', {
            least: round(allowed.least),
            most: round(allowed.most),
            unit: allowed.unit === 'deg' ? '°' : allowed.unit,
          });
    case 'choice':
      return t('app.link.allowed.choice', { choices: allowed.choices.join(', ') });
    case 'not-for-this-axle':
      return t('app.link.allowed.notForThisAxle');
    case 'unknown-part':
      return t('app.link.allowed.unknownPart');
    case 'version':
      return t('app.link.allowed.version', { newest: allowed.newest });
    case 'length':
      return t('app.link.allowed.length', { most: allowed.most });
  }
}

const round = (value: number): string => String(Number(value.toFixed(3)));

function FailureNotice({ failure }: { readonly failure: WorkerFailure }) {
  const t = useText();
  return (
    <div className={styles.notice} data-kind="failure">
      <Icon name="caution" />
      <div className={styles.text}>
        <p>
          <strong>{t('app.failure.title')}</strong>
        </p>
        <p>{failureWords(failure, t)}</p>
      </div>
      <Button icon="undo" onPress={undoSetup}>
        {t('app.failure.back')}
      </Button>
      <Button onPress={() => useMesh.getState().retry()}>{t('app.failure.retry')}</Button>
    </div>
  );
}

export function failureWords(failure: WorkerFailure, t: Translate): string {
  switch (failure.kind) {
    case 'unmakeable':
    case 'bad-argument': {
      const { field, value, allowed } = failure;
      const words = t('app.failure.field', { field, value, allowed });
      return failure.kind === 'unmakeable' ? `${t('app.failure.unmakeable')} ${words}` : words;
    }
    case 'not-loaded':
      return t('app.failure.notLoaded');
    case 'internal':
      return t('app.failure.internal', { message: failure.message });
  }
}

/** Asked once, where it disturbs nothing. */
function CompoundQuestion() {
  const t = useText();
  const { change } = usePreferences.getState();
  return (
    <fieldset className={`${styles.notice} ${styles.question}`}>
      <legend className="visually-hidden">{t('app.compound.ask')}</legend>
      <p className={styles.ask} aria-hidden="true">
        {t('app.compound.ask')}
      </p>
      <div className={styles.swatches}>
        {COMPOUNDS.map((compound) => (
          <button
            key={compound}
            type="button"
            className={styles.swatchButton}
            onClick={() => change({ compound })}
          >
            <span className={styles.swatch} style={{ background: COMPOUND_COLOURS[compound] }} />
            {t(`app.compound.${compound}`)}
          </button>
        ))}
      </div>
      <IconButton
        icon="close"
        label={t('app.compound.later')}
        onPress={() => change({ compound: 'yellow' })}
      />
    </fieldset>
  );
}
