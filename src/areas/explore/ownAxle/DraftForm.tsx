import { type ReactNode, useEffect, useRef } from 'react';
import { Icon } from '../../../app/ui/Icon.tsx';
import { counts, draftField } from '../../../state/axleDraft.ts';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { useText } from '../../../text/useText.ts';
import { DepthRow } from './DepthRow.tsx';
import { useDraftMesh } from './draftMesh.ts';
import { FieldRow } from './FieldRow.tsx';
import {
  AXLE_SECTIONS,
  CALIPER_SECTION,
  type FormField,
  type FormSection,
  HAND_FIELD,
  NAME_SECTION,
  NOTES_SECTION,
  UNMEASURED_SECTIONS,
} from './formLayout.ts';
import styles from './ownAxle.module.css';

/** Every field of an axle: the measured ones in sight, the rest in parts that can be opened. */
export function DraftForm() {
  const t = useText();
  return (
    <div className={styles.form}>
      <Rows fields={NAME_SECTION.fields} untouched="assumed" />
      <Section of={CALIPER_SECTION} untouched="example">
        <DepthRow />
        <FieldRow of={HAND_FIELD} untouched="assumed" />
      </Section>
      {AXLE_SECTIONS.map((section) => (
        <Opened
          key={section.id}
          of={[section]}
          id={section.id}
          title={t(section.title)}
          why={section.why && t(section.why)}
        />
      ))}
      <Opened
        of={UNMEASURED_SECTIONS}
        id="unmeasured"
        title={t('ownAxle.s.unmeasured')}
        why={t('ownAxle.s.unmeasured.why')}
      />
      <Opened of={[NOTES_SECTION]} id="notes" title={t('ownAxle.s.notes')} why={null} />
    </div>
  );
}

function Section({
  of,
  untouched = 'assumed',
  children,
}: {
  readonly of: FormSection;
  readonly untouched?: 'assumed' | 'example';
  readonly children?: ReactNode;
}) {
  const t = useText();
  return (
    <section className={styles.section} aria-label={t(of.title)}>
      <h3 className={styles.sectionTitle}>{t(of.title)}</h3>
      {of.why !== null && <p className={styles.help}>{t(of.why)}</p>}
      <Rows fields={of.fields} untouched={untouched} />
      {children}
    </section>
  );
}

function Rows({
  fields,
  untouched,
}: {
  readonly fields: readonly FormField[];
  readonly untouched: 'assumed' | 'example';
}) {
  // the choosers of the variants decide which fields count; their names in one text keep the rows from rendering at every key
  const shown = useAxleDrafts((state) => {
    const entries = openDraft(state)?.entries;
    if (entries === undefined) return '';
    return fields
      .filter(({ name }) => counts(draftField(name), entries))
      .map(({ name }) => name)
      .join(' ');
  }).split(' ');
  return fields
    .filter(({ name }) => shown.includes(name))
    .map((field) => <FieldRow key={field.name} of={field} untouched={untouched} />);
}

interface OpenedProps {
  readonly of: readonly FormSection[];
  readonly id: string;
  readonly title: string;
  readonly why: string | null;
}

/** A part that is closed until it is wanted, or until something in it is wrong. */
function Opened({ of, id, title, why }: OpenedProps) {
  const t = useText();
  const details = useRef<HTMLDetailsElement>(null);
  const names = of.flatMap(({ fields }) => fields.map(({ name }) => name));
  const wrong = useDraftMesh(({ judged, failure }) => {
    const cause = failure !== null && 'field' in failure ? `gearset.${failure.field}` : null;
    return names.filter((name) => judged.problems.has(name) || name.split('@')[0] === cause).length;
  });
  useEffect(() => {
    if (wrong > 0 && details.current !== null) details.current.open = true;
  }, [wrong]);
  return (
    <details ref={details} className={styles.opened} id={`own-axle-part-${id}`}>
      <summary className={styles.openedHead}>
        <span className={styles.sectionTitle}>{title}</span>
        {wrong > 0 && <Icon name="caution" size={18} />}
        <span className={styles.openedSign}>
          <Icon name="down" />
        </span>
      </summary>
      {why !== null && <p className={styles.help}>{why}</p>}
      {of.map((section) =>
        of.length === 1 ? (
          <Rows key={section.id} fields={section.fields} untouched="assumed" />
        ) : (
          <section key={section.id} className={styles.inner} aria-label={t(section.title)}>
            <h4 className={styles.innerTitle}>{t(section.title)}</h4>
            <Rows fields={section.fields} untouched="assumed" />
          </section>
        ),
      )}
    </details>
  );
}
