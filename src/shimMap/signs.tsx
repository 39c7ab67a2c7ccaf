import type { ReactNode } from 'react';
import styles from './ShimMap.module.css';
import type { ScreenPoint } from './scales.ts';

/** Signs of places. They are as large as will nest: design, as found and best often lie on the same spot. */
export type SignKind = 'present' | 'found' | 'design' | 'best' | 'stock';

const SHAPES: Readonly<Record<SignKind, ReactNode>> = {
  present: <circle r={6.5} className={styles.present} />,
  design: (
    <>
      <circle r={10.5} className={styles.signHalo} />
      <circle r={10.5} className={styles.design} />
    </>
  ),
  found: <path d="M-6.5 -24H6.5L0 -14Z" className={styles.found} />,
  best: (
    <>
      <path d="M0 -17 17 0 0 17 -17 0Z" className={styles.signHalo} />
      <path d="M0 -17 17 0 0 17 -17 0Z" className={styles.best} />
    </>
  ),
  stock: <circle r={2} className={styles.stockSign} />,
};

export function Sign({ kind, at }: { readonly kind: SignKind; readonly at: ScreenPoint }) {
  return (
    <g data-sign={kind} transform={`translate(${at.x.toFixed(1)} ${at.y.toFixed(1)})`}>
      {SHAPES[kind]}
    </g>
  );
}

/** The same beside its name in the legend. */
export function SignKey({ kind }: { readonly kind: SignKind }) {
  const lower = kind === 'found' ? 19 : 0;
  return (
    <svg
      className={styles.signKey}
      viewBox="-19 -19 38 38"
      width={26}
      height={26}
      aria-hidden="true"
      focusable="false"
    >
      <g transform={`translate(0 ${lower})`}>{SHAPES[kind]}</g>
    </svg>
  );
}
