import { type ComponentType, useEffect, useState } from 'react';
import { useAxleDesk } from '../../state/axleDesk.ts';
import { useNotices } from '../../state/notices.ts';

/** The place where own axles are made and kept. Few visits need it, so it is loaded when it is opened. */
export function AxleDesk() {
  const open = useAxleDesk((state) => state.open);
  return open === null ? null : <Loaded />;
}

function Loaded() {
  const [Desk, setDesk] = useState<ComponentType | null>(null);
  useEffect(() => {
    import('./ownAxle/OwnAxleDesk.tsx').then(
      ({ OwnAxleDesk }) => setDesk(() => OwnAxleDesk),
      () => {
        useNotices.getState().show({ id: 'own axle desk', kind: 'plain', text: 'app.share.notLoaded' });
        useAxleDesk.getState().show(null);
      },
    );
  }, []);
  return Desk === null ? null : <Desk />;
}
