import type { ReactNode } from 'react';
import { useText } from '../text/useText.ts';
import { compoundTones } from './compoundTones.ts';
import styles from './FlankMap.module.css';

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
