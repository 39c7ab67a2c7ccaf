import { memo, useId } from 'react';
import type { AxleDefinition } from '../../models/axle.ts';
import { COARSE_DIGITS, useLengths } from '../app/ui/useLengths.ts';
import { useText } from '../text/useText.ts';
import { Hatches, hatchName } from './Hatches.tsx';
import type { MapPicture } from './pictureProtocol.ts';
import styles from './ShimMap.module.css';
import { SignKey, type SignKind } from './signs.tsx';

export interface LegendProps {
  readonly axle: AxleDefinition;
  readonly edges: MapPicture['edges'];
  readonly binds: boolean;
  readonly stock: boolean;
}

const SIGNS = ['present', 'found', 'design', 'best', 'stock'] as const satisfies readonly SignKind[];

/** What colours, hatches and signs mean, in words. */
export const Legend = memo(function Legend({ axle, edges, binds, stock }: LegendProps) {
  const t = useText();
  const lengths = useLengths();
  const id = useId();
  const { backlash } = axle.limits;
  return (
    <section className={styles.legend} aria-label={t('shimMap.legend')}>
      <svg width={0} height={0} className={styles.patterns} aria-hidden="true" focusable="false">
        <defs>
          <Hatches id={id} />
        </defs>
      </svg>
      <ul className={styles.keys}>
        <li className={styles.wideKey}>
          <span className={styles.limitKey} aria-hidden="true" />
          {t('shimMap.legend.limits', {
            least: lengths.number(backlash.min, COARSE_DIGITS),
            most: lengths.say(backlash.max, COARSE_DIGITS),
            reads: backlash.reads,
          })}
          ; {t('shimMap.legend.pale')}
        </li>
        {binds && (
          <li>
            <KeyBox fill={`url(#${id}-bars)`} dark />
            {t('shimMap.legend.binds')}
          </li>
        )}
        {edges.map(({ flank, edge }) => (
          <li key={hatchName(flank, edge)}>
            <KeyBox fill={`url(#${id}-${hatchName(flank, edge)})`} />
            {t('shimMap.legend.edge', { flank, edge: t(`flank.edge.${edge}`) })}
          </li>
        ))}
        {SIGNS.filter((kind) => kind !== 'stock' || stock).map((kind) => (
          <li key={kind}>
            <SignKey kind={kind} />
            {t(`shimMap.mark.${kind}`)}
          </li>
        ))}
      </ul>
      <details className={styles.judged}>
        <summary>{t('shimMap.judged')}</summary>
        {(['home', 'limits', 'best', 'solved'] as const).map((part) => (
          <p key={part}>{t(`shimMap.judged.${part}`)}</p>
        ))}
      </details>
    </section>
  );
});

function KeyBox({ fill, dark = false }: { readonly fill: string; readonly dark?: boolean }) {
  return (
    <svg className={styles.keyBox} width={26} height={20} aria-hidden="true" focusable="false">
      <rect className={dark ? styles.binds : styles.keyGround} width={26} height={20} />
      <rect width={26} height={20} fill={fill} />
    </svg>
  );
}
