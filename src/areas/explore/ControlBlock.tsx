import { type ReactNode, useId } from 'react';
import styles from './explore.module.css';

export interface ControlBlockProps {
  readonly title: string;
  readonly note?: ReactNode;
  /** at the end of the title's line: the reading */
  readonly aside?: ReactNode;
  /** title and control in one line */
  readonly line?: boolean;
  readonly children: ReactNode;
}

/** One thing that can be changed: its name, where it sits, its control, what the change means. */
export function ControlBlock({ title, note, aside, line = false, children }: ControlBlockProps) {
  const id = useId();
  return (
    <section className={line ? `${styles.block} ${styles.lineBlock}` : styles.block} aria-labelledby={id}>
      <header className={styles.blockHead}>
        <div className={styles.blockName}>
          <h3 id={id} className={styles.blockTitle}>
            {title}
          </h3>
          {note !== undefined && <p className={styles.blockNote}>{note}</p>}
        </div>
        {aside}
      </header>
      {children}
    </section>
  );
}
