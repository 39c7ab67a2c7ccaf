import type { ReactNode } from 'react';
import { useText } from '../text/useText.ts';
import { compoundTones } from './compoundTones.ts';
import styles from './FlankMap.module.css';
import layers from './layers.module.css';

export interface FlankMapKeyProps {
  /** #rrggbb of the user's marking compound */
  readonly compoundColour: string;
  /** unit of the lines of separation when they are drawn */
  readonly contourUnit?: string | undefined;
}

/** What the signs on the flank maps mean; stands once beside both maps. */
export function FlankMapKey({ compoundColour, contourUnit }: FlankMapKeyProps): ReactNode {
  const t = useText();
  const tones = compoundTones(compoundColour);
  return (
    <ul className={styles.key} aria-label={t('flank.key.name')}>
      <KeyLine text={t('flank.key.patch')}>
        <rect x="0" y="0" width="28" height="18" fill={tones.coat} />
        <rect
          x="4"
          y="4"
          width="20"
          height="10"
          rx="5"
          fill={tones.rubbed}
          stroke={tones.rim}
          strokeWidth="2"
        />
      </KeyLine>
      <KeyLine text={t('flank.key.centre')}>
        <path className={styles.cross} d="M6 9H22M14 1V17" />
      </KeyLine>
      <KeyLine text={t('flank.key.edge')}>
        <path className={styles.edge} d="M4 9H24" />
      </KeyLine>
      <KeyLine text={t('flank.key.reach')}>
        <path className={styles.reach} d="M1 9H27" />
      </KeyLine>
      <KeyLine text={t('flank.key.below')}>
        <rect className={styles.below} x="1" y="3" width="26" height="12" />
      </KeyLine>
      <KeyLine text={t('flank.key.former')}>
        <path className={layers.ghost} d="M2 9C4 1 24 1 26 9S4 17 2 9" />
      </KeyLine>
      <KeyLine text={t('flank.key.trail')}>
        <path className={layers.trailHalo} d="M3 14L25 4" />
        <path className={layers.trail} d="M3 14L25 4" />
        <path className={layers.trailOld} d="M3 14h0" />
        <path className={layers.trailMiddle} d="M14 9h0" />
        <path className={layers.trailNew} d="M25 4h0" />
      </KeyLine>
      <KeyLine text={t('flank.key.arrow')}>
        <path className={layers.shaft} d="M2 9H19" />
        <path className={layers.tip} d="M27 9L18 13.5V4.5Z" />
      </KeyLine>
      {contourUnit === undefined ? null : (
        <KeyLine text={t('flank.key.contours', { unit: contourUnit })}>
          <path className={styles.contour} d="M1 14C8 2 20 2 27 14" />
        </KeyLine>
      )}
    </ul>
  );
}

function KeyLine({ text, children }: { readonly text: string; readonly children: ReactNode }): ReactNode {
  return (
    <li className={styles.keyLine}>
      <svg className={styles.keySign} viewBox="0 0 28 18" width="28" height="18" aria-hidden="true">
        {children}
      </svg>
      {text}
    </li>
  );
}
