import type { ReactNode } from 'react';
import { useText } from '../../text/useText.ts';
import { Sheet } from '../ui/Sheet.tsx';
import styles from './sheets.module.css';

export interface AboutSheetProps {
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
}

export function AboutSheet({ open, onOpenChange }: AboutSheetProps) {
  const t = useText();
  return (
    <Sheet title={t('app.about')} open={open} onOpenChange={onOpenChange}>
      <p className={styles.lead}>{t('app.line')}</p>
      <p className={styles.text}>{t('app.about.what')}</p>
      <Part title={t('app.about.caution.title')}>
        <li>{t('app.about.caution.manual')}</li>
        <li>{t('app.about.caution.hands')}</li>
      </Part>
      <Part title={t('app.about.limits.title')}>
        <li>{t('app.about.limits.rigid')}</li>
        <li>{t('app.about.limits.edge')}</li>
        <li>{t('app.about.limits.ideal')}</li>
        <li>{t('app.about.limits.proof')}</li>
        <li>{t('app.about.limits.use')}</li>
      </Part>
      <Part title={t('app.about.fiction.title')}>
        <li>{t('app.about.fiction')}</li>
      </Part>
      <Part title={t('app.about.private.title')}>
        <li>{t('app.about.private')}</li>
      </Part>
      <Part title={t('app.about.licence.title')}>
        <li>{t('app.about.licence')}</li>
      </Part>
    </Sheet>
  );
}

function Part({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <>
      <h3 className={styles.heading}>{title}</h3>
      <ul className={styles.points}>{children}</ul>
    </>
  );
}
