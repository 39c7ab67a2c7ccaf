import { useState } from 'react';
import type { Hand } from '../../../../sim/assembly/hardware.ts';
import type { FlankOutline } from '../../../../sim/worker/protocol.ts';
import { Choice } from '../../../app/ui/controls.tsx';
import { isHeelOnRight } from '../../../flank/flankGeometry.ts';
import { useText } from '../../../text/useText.ts';
import styles from '../match.module.css';

export interface OrientationProps {
  readonly outline: FlankOutline;
  readonly hand: Hand;
}

const BULGES = ['convex', 'concave'] as const;
const UPS = ['face', 'root'] as const;
const TOES = ['left', 'right'] as const;

/** Which flank is it, which end is toe, and is the view upside down or mirrored? Asked of the tooth itself. */
export function Orientation({ outline, hand }: OrientationProps) {
  const t = useText();
  const [bulge, setBulge] = useState<(typeof BULGES)[number]>('convex');
  const [up, setUp] = useState<(typeof UPS)[number]>('face');
  const [toe, setToe] = useState<(typeof TOES)[number]>('left');
  const flank = bulge === 'convex' ? 'drive' : 'coast';
  // upside down, left and right change places with up and down
  const toeWithFaceUp = up === 'face' ? toe : toe === 'left' ? 'right' : 'left';
  const toeOnMap = isHeelOnRight(outline, flank, hand) ? 'left' : 'right';
  const verdict =
    toeWithFaceUp === toeOnMap ? (up === 'face' ? 'asDrawn' : 'upsideDown') : ('mirrored' as const);
  return (
    <details className={styles.numbersBlock}>
      <summary className={styles.numbersHead}>{t('match.orient.title')}</summary>
      <ol className={styles.steps}>
        <li>
          <span>{t('match.orient.bulge')}</span>
          <Choice
            label={t('match.orient.bulge')}
            name="orient-bulge"
            options={BULGES.map((value) => ({ value, text: t(`match.orient.bulge.${value}`) }))}
            value={bulge}
            onChoose={setBulge}
          />
        </li>
        <li>
          <span>{t('match.orient.up')}</span>
          <Choice
            label={t('match.orient.up')}
            name="orient-up"
            options={UPS.map((value) => ({ value, text: t(`match.orient.up.${value}`) }))}
            value={up}
            onChoose={setUp}
          />
        </li>
        <li>
          <span>{t('match.orient.toe')}</span>
          <Choice
            label={t('match.orient.toe')}
            name="orient-toe"
            options={TOES.map((value) => ({ value, text: t(`match.orient.toe.${value}`) }))}
            value={toe}
            onChoose={setToe}
          />
        </li>
      </ol>
      <p className={styles.verdict} role="status">
        {t('match.orient.flank', { flank: t(`flank.name.${flank}`) })} {t(`match.orient.${verdict}`)}
      </p>
      <p className={styles.note}>
        {t('match.orient.check', { mirrored: hand === 'reverse-cut' ? 'yes' : 'no' })}
      </p>
    </details>
  );
}
