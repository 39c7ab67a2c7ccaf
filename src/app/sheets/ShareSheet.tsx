import { type ComponentType, useEffect, useState } from 'react';
import { useText } from '../../text/useText.ts';
import { Sheet } from '../ui/Sheet.tsx';

export interface ShareSheetProps {
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
}

/** What is printed, saved or handed on. Few visits need it, so it is loaded when it is opened. */
export function ShareSheet({ open, onOpenChange }: ShareSheetProps) {
  const t = useText();
  return (
    <Sheet wide title={t('app.share')} open={open} onOpenChange={onOpenChange}>
      <LoadedBody />
    </Sheet>
  );
}

function LoadedBody() {
  const t = useText();
  const [Body, setBody] = useState<ComponentType | 'failed' | null>(null);
  useEffect(() => {
    import('./ShareBody.tsx').then(
      ({ ShareBody }) => setBody(() => ShareBody),
      () => setBody('failed'),
    );
  }, []);
  if (Body === 'failed') return <p role="alert">{t('app.share.notLoaded')}</p>;
  return Body === null ? <p role="status">{t('app.share.drawing')}</p> : <Body />;
}
