import { useMemo, useRef, useState } from 'react';
import { createPortal } from 'react-dom';
import { describePattern } from '../../flank/describePattern.ts';
import { currentHash } from '../../state/link.ts';
import { useMesh } from '../../state/mesh.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { useSetup } from '../../state/setup.ts';
import { useView } from '../../state/view.ts';
import { useText } from '../../text/useText.ts';
import { Button } from '../ui/controls.tsx';
import { pngOf, saveFile, svgAddress } from '../ui/saveFile.ts';
import { plateOf } from './plateOf.ts';
import { QrCode } from './QrCode.tsx';
import styles from './share.module.css';

/** Pixels of the saved picture to each of the plate. */
const PNG_SCALE = 2;

export function ShareBody() {
  return (
    <div className={styles.columns}>
      <Plate />
      <LinkPart />
    </div>
  );
}

/** The plate of the set-up at rest; null while it is worked out or has no answer. */
function usePlate(): { readonly svg: string; readonly words: string; readonly axleId: string } | null {
  const t = useText();
  const { shown, pending, failure } = useMesh();
  const setup = useSetup((state) => state.committed);
  const contours = useView((state) => state.contours);
  const units = usePreferences((state) => state.units);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  return useMemo(() => {
    if (shown === null || pending || failure !== null || shown.axleId !== setup.axleId) return null;
    const wishes = { compoundColour: COMPOUND_COLOURS[compound], units, contours };
    return {
      svg: plateOf(shown, setup, wishes, t),
      words: describePattern(shown.result, t).join(' '),
      axleId: setup.axleId,
    };
  }, [shown, pending, failure, setup, contours, units, compound, t]);
}

function Plate() {
  const t = useText();
  const plate = usePlate();
  const failed = useMesh((state) => state.failure !== null);
  const [said, setSaid] = useState('');
  if (plate === null) {
    return (
      <p className={styles.waiting} role="status">
        {t(failed ? 'app.failure.title' : 'app.share.drawing')}
      </p>
    );
  }
  const { svg, words, axleId } = plate;
  const address = svgAddress(svg);
  const saveSvg = () => {
    saveFile(new Blob([svg], { type: 'image/svg+xml' }), `meshwitness-${axleId}.svg`);
    setSaid(t('app.share.saved', { kind: 'SVG' }));
  };
  const savePng = () =>
    pngOf(svg, PNG_SCALE).then(
      (png) => {
        saveFile(png, `meshwitness-${axleId}.png`);
        setSaid(t('app.share.saved', { kind: 'PNG' }));
      },
      () => setSaid(t('app.share.noPicture')),
    );
  return (
    <section className={styles.plate} aria-label={t('app.share.plate')}>
      <img className={styles.preview} src={address} alt={`${t('flank.plate.title')}. ${words}`} />
      <div className={styles.actions}>
        <Button onPress={saveSvg}>{t('app.share.saveSvg')}</Button>
        <Button onPress={() => void savePng()}>{t('app.share.savePng')}</Button>
        <Button onPress={() => window.print()}>{t('app.share.print')}</Button>
        <p className={styles.said} role="status">
          {said}
        </p>
      </div>
      {/* beside the app and not in it: on paper everything else gives way */}
      {createPortal(<img className={styles.onPaper} src={address} alt="" />, document.body)}
    </section>
  );
}

const LOCAL = /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])$/;

function LinkPart() {
  const t = useText();
  const field = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState('');
  const { origin, pathname, search, hostname } = window.location;
  const link = `${origin}${pathname}${search}#${currentHash()}`;
  const copy = () => {
    const copied = navigator.clipboard?.writeText(link) ?? Promise.reject(new Error('no clipboard'));
    copied.then(
      () => setSaid(t('app.share.copied')),
      () => {
        field.current?.focus();
        field.current?.select();
        setSaid(t('app.share.notCopied'));
      },
    );
  };
  return (
    <section className={styles.link} aria-labelledby="share-link">
      <h3 id="share-link" className={styles.heading}>
        {t('app.share.link')}
      </h3>
      <p>{t('app.share.link.why')}</p>
      <input
        ref={field}
        className={styles.field}
        type="text"
        readOnly
        aria-label={t('app.share.link')}
        value={link}
        onFocus={(event) => event.currentTarget.select()}
      />
      <Button icon="link" onPress={copy}>
        {t('app.share.copy')}
      </Button>
      <p className={styles.said} role="status">
        {said}
      </p>
      <QrCode link={link} label={t('app.share.qr')} />
      <p className={styles.why}>{t(LOCAL.test(hostname) ? 'app.share.local' : 'app.share.qr.why')}</p>
    </section>
  );
}
