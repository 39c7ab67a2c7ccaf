import { useText } from '../text/useText.ts';
import styles from './TopBar.module.css';

/** A tooth flank with its witness mark, and the name. */
export function Wordmark() {
  const t = useText();
  return (
    <div className={styles.wordmark}>
      <svg width="34" height="26" viewBox="78 148 360 260" aria-hidden="true" focusable="false">
        <path d="M86 362Q250 404 428 386L404 168Q256 116 124 164Z" className={styles.flankSign} />
        <ellipse
          cx="246"
          cy="268"
          rx="104"
          ry="50"
          transform="rotate(-9 246 268)"
          className={styles.markSign}
        />
      </svg>
      <h1 className={styles.name}>{t('app.name')}</h1>
    </div>
  );
}
