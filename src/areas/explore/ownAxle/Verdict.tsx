import type { ReactNode } from 'react';
import { Button } from '../../../app/ui/controls.tsx';
import { Icon } from '../../../app/ui/Icon.tsx';
import { DRAFT_FIELDS, nameOfPath } from '../../../state/axleDraft.ts';
import { type AxleDraftsStore, openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { usePreferences } from '../../../state/preferences.ts';
import { useText } from '../../../text/useText.ts';
import { formatDegrees, formatLength, formatNumber } from '../../../units/format.ts';
import { useCaliperStart } from './caliperStart.ts';
import { useDraftMesh } from './draftMesh.ts';
import { FORM_NAMES, formField } from './formLayout.ts';
import { goToField } from './goToField.ts';
import { NearestMakeable } from './NearestMakeable.tsx';
import styles from './ownAxle.module.css';
import { withFieldNames } from './problemText.ts';

/** Can it be made? If not: which field, why, and what would do. */
export function Verdict() {
  const t = useText();
  const { judged, made, building, failure } = useDraftMesh();
  const entries = useAxleDrafts((state) => openDraft(state)?.entries);
  const lastChanged = useAxleDrafts(lastNumberChanged);
  const altered = useCaliperStart((state) => state.altered);
  if (entries === undefined) return null;
  const wrong = FORM_NAMES.filter((name) => judged.problems.has(name));
  if (wrong.length > 0) {
    const names = wrong.map((name) => t(formField(name).label)).join(', ');
    return (
      <Box kind="wrong">
        <p>
          <strong>{t('ownAxle.v.problems', { count: wrong.length, names })}</strong>{' '}
          {made !== null && t('ownAxle.v.last')}
        </p>
        <Button onPress={() => goToField(wrong[0])}>
          {t('ownAxle.v.goTo', { field: t(formField(wrong[0]).label) })}
        </Button>
      </Box>
    );
  }
  if (failure !== null) {
    if (!('field' in failure)) {
      const message = failure.kind === 'internal' ? failure.message : failure.gearSetId;
      return (
        <Box kind="wrong">
          <p>{t('app.failure.internal', { message })}</p>
        </Box>
      );
    }
    const name = nameOfPath(`gearset.${failure.field}`, entries);
    const field = name === null ? failure.field : t(formField(name).label);
    return (
      <Box kind="wrong">
        <p>
          <strong>{t('ownAxle.v.unmakeable')}</strong>{' '}
          {t('ownAxle.v.reason', {
            field,
            value: failure.value,
            allowed: sentence(withFieldNames(failure.allowed, entries, t)),
          })}{' '}
          {made !== null && t('ownAxle.v.last')}
        </p>
        <div className={styles.tools}>
          <NearestMakeable names={[...new Set([name, lastChanged])].flatMap((one) => one ?? [])} />
          {name !== null && <Button onPress={() => goToField(name)}>{t('ownAxle.v.goTo', { field })}</Button>}
        </div>
      </Box>
    );
  }
  if (building || made === null) {
    return (
      <Box kind="building">
        <p>{t('ownAxle.v.building')}</p>
      </Box>
    );
  }
  return (
    <Box kind="made">
      <p>
        <strong>{t('ownAxle.v.makeable')}</strong>{' '}
        {made.loaded.warnings.map(({ message }) => t('ownAxle.v.close', { message })).join(' ')}{' '}
        {altered.length > 0 &&
          t('ownAxle.v.altered', { names: altered.map((name) => t(formField(name).label)).join(', ') })}
      </p>
      <Facts />
    </Box>
  );
}

/** The number the user changed last: most likely the one to change again. */
function lastNumberChanged({ past }: AxleDraftsStore): string | null {
  const what = past.at(-1)?.what.split(' ')[0];
  const field = DRAFT_FIELDS.find(({ name }) => name === what);
  return field?.field.kind === 'number' && field.path.startsWith('gearset.') ? field.name : null;
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

function Box({ kind, children }: { kind: 'wrong' | 'building' | 'made'; children: ReactNode }) {
  return (
    <div className={styles.verdict} data-kind={kind} role="status">
      <Icon name={kind === 'wrong' ? 'caution' : kind === 'made' ? 'check' : 'settings'} />
      <div className={styles.verdictText}>{children}</div>
    </div>
  );
}

/** What follows from the dimensions, to hold against a drawing. */
function Facts() {
  const t = useText();
  const units = usePreferences((state) => state.units);
  const made = useDraftMesh((state) => state.made);
  if (made === null) return null;
  const { geometry, gearRatio } = made.loaded;
  return (
    <p className={styles.facts}>
      {t('ownAxle.v.facts', {
        ratio: formatNumber(gearRatio, 3),
        ringPitchAngle: formatDegrees(geometry.ringPitchAngle, { decimals: 1 }),
        ringSpiral: formatDegrees(geometry.ringSpiralAngle, { decimals: 1 }),
        module: formatLength(geometry.meanNormalModule, units),
        depth: formatLength(geometry.workingDepth, units, { decimals: units === 'mm' ? 2 : 3 }),
      })}
    </p>
  );
}
