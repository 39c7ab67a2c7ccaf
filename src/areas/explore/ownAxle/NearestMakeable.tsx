import { useEffect, useState } from 'react';
import type { MendableField } from '../../../../sim/worker/longProtocol.ts';
import { Button } from '../../../app/ui/controls.tsx';
import { draftField, withEntry } from '../../../state/axleDraft.ts';
import { useAxleDrafts } from '../../../state/axleDrafts.ts';
import { longService } from '../../../state/longService.ts';
import { usePreferences } from '../../../state/preferences.ts';
import { useText } from '../../../text/useText.ts';
import { useDraftMesh } from './draftMesh.ts';
import { sayNumber, scaleOf } from './fieldText.ts';
import { formField } from './formLayout.ts';
import styles from './ownAxle.module.css';

const GEAR_SET = 'gearset.';

/** The field for the search, from its descriptor; null for one that is no number of the gear set. */
function mendable(name: string): MendableField | null {
  const { path, field } = draftField(name);
  if (field.kind !== 'number' || !path.startsWith(GEAR_SET)) return null;
  const { min, max, step, integer } = field;
  return { path: path.slice(GEAR_SET.length), min, max, step, integer };
}

/** What was found for a field: the value, or null when there is none. */
type Found = Readonly<Record<string, number | null>>;

/** Offers the nearest value of each of the fields with which the set can be made, everything else as it is. */
export function NearestMakeable({ names }: { readonly names: readonly string[] }) {
  const t = useText();
  const units = usePreferences((state) => state.units);
  const axle = useDraftMesh((state) => state.judged.axle);
  const [found, setFound] = useState<Found | null>(null);
  const asked = names.filter((name) => mendable(name) !== null).join(' ');
  useEffect(() => {
    setFound(null);
    if (axle === null || asked === '') return;
    const looking = new AbortController();
    const list = asked.split(' ');
    const fields = list.flatMap((name) => mendable(name) ?? []);
    void longService()
      .nearestMakeable(axle.gearset, fields, { signal: looking.signal })
      .then((answer) => {
        if (answer === null || looking.signal.aborted) return;
        const mends = answer.ok ? answer.value : [];
        setFound(Object.fromEntries(list.map((name, i) => [name, mends[i]?.to ?? null])));
      });
    return () => looking.abort();
  }, [axle, asked]);
  if (axle === null || asked === '') return null;
  if (found === null) return <p className={styles.help}>{t('ownAxle.v.nearest.looking')}</p>;
  const offered = Object.entries(found).filter((entry): entry is [string, number] => entry[1] !== null);
  if (offered.length === 0) return <p className={styles.help}>{t('ownAxle.v.nearest.none')}</p>;
  return offered.map(([name, to]) => {
    const { field } = draftField(name);
    if (field.kind !== 'number') return null;
    const value = sayNumber(to, scaleOf(field, units, t));
    return (
      <Button key={name} icon="check" onPress={() => use(name, to)}>
        {t('ownAxle.v.nearest', { field: t(formField(name).label), value })}
      </Button>
    );
  });
}

/** A step of its own for undo. */
function use(name: string, to: number): void {
  const { change, rest } = useAxleDrafts.getState();
  rest();
  change(name, (draft) => withEntry(draft, name, to));
  rest();
}
