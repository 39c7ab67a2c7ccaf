import { Dialog } from '@base-ui/react/dialog';
import type { ReactNode } from 'react';
import { useText } from '../../text/useText.ts';
import { Icon } from './Icon.tsx';
import styles from './Sheet.module.css';

export interface SheetProps {
  readonly title: string;
  /** for a picture with what belongs to it beside it */
  readonly wide?: boolean;
  /** takes the whole window: a work place of its own */
  readonly full?: boolean;
  /** stays in sight under what scrolls */
  readonly foot?: ReactNode;
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
  readonly children: ReactNode;
}

/** A dialog: the page behind it waits, Escape closes it, the focus returns where it came from. */
export function Sheet({ title, wide = false, full = false, foot, open, onOpenChange, children }: SheetProps) {
  const t = useText();
  const size = full ? ` ${styles.full}` : wide ? ` ${styles.wide}` : '';
  return (
    <Dialog.Root open={open} onOpenChange={onOpenChange}>
      <Dialog.Portal>
        <Dialog.Backdrop className={styles.backdrop} />
        <Dialog.Popup className={`${styles.sheet}${size}`}>
          <header className={styles.head}>
            <Dialog.Title className={styles.title}>{title}</Dialog.Title>
            <Dialog.Close className={styles.close} aria-label={t('app.dialog.close')}>
              <Icon name="close" size={22} />
            </Dialog.Close>
          </header>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keys */}
          <div className={styles.body} tabIndex={0}>
            {children}
          </div>
          {foot !== undefined && <footer className={styles.foot}>{foot}</footer>}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
