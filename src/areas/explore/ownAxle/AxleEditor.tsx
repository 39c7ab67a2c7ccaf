import { useEffect } from 'react';
import { Button, IconButton } from '../../../app/ui/controls.tsx';
import { Sheet } from '../../../app/ui/Sheet.tsx';
import { useAxleDesk } from '../../../state/axleDesk.ts';
import { openDraft, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { chooseAxle } from '../../../state/moves.ts';
import { saveToBench } from '../../../state/ownAxleBench.ts';
import { useOwnAxles } from '../../../state/ownAxles.ts';
import type { Translate } from '../../../text/translate.ts';
import { useText } from '../../../text/useText.ts';
import { followCaliper } from './caliperStart.ts';
import { DraftForm } from './DraftForm.tsx';
import { DraftMaps } from './DraftMaps.tsx';
import { followDraft, isMade, useDraftMesh } from './draftMesh.ts';
import { CALIPER_FIELDS } from './formLayout.ts';
import styles from './ownAxle.module.css';
import { followWishes } from './patternWish.ts';
import { Verdict } from './Verdict.tsx';

/** An axle in the making: its dimensions on one side, what they make on the other. */
export function AxleEditor() {
  const t = useText();
  const draft = useAxleDrafts(openDraft);
  useEffect(() => {
    const endings = [followCaliper(), followDraft(), followWishes()];
    return () => {
      for (const end of endings) end();
    };
  }, []);
  const former = useOwnAxles((state) => state.axles.find(({ key }) => key === draft?.key));
  if (draft === null) return null;
  const close = () => {
    const untouched = !draft.changes && draft.source === null && draft.given.length === 0;
    if (untouched) useAxleDrafts.getState().discard(draft.key);
    useAxleDrafts.getState().close();
    useAxleDesk.getState().show(null);
  };
  const title =
    former !== undefined
      ? t('ownAxle.edit.title.change', { name: former.axle.name })
      : draft.source === null
        ? t('ownAxle.edit.title.new')
        : t('ownAxle.edit.title.copy', { name: draft.source });
  return (
    <Sheet full title={title} open onOpenChange={close} foot={<Foot />}>
      <div className={styles.editor}>
        <section className={styles.formSide} aria-label={t('ownAxle.edit.form')}>
          <DraftForm />
        </section>
        <section className={styles.previewSide} aria-label={t('ownAxle.edit.preview')}>
          <Verdict />
          <DraftMaps />
        </section>
      </div>
    </Sheet>
  );
}

function Foot() {
  const t = useText();
  const draft = useAxleDrafts(openDraft);
  const past = useAxleDrafts((state) => state.past.length);
  const future = useAxleDrafts((state) => state.future.length);
  const made = useDraftMesh();
  const ready = isMade(made);
  if (draft === null) return null;
  const { undo, redo, discard } = useAxleDrafts.getState();
  const save = () => {
    const { axle } = made.judged;
    if (axle === null) return;
    const saved = saveToBench({ key: draft.key, axle });
    discard(draft.key);
    useAxleDrafts.getState().close();
    useAxleDesk.getState().show(null);
    chooseAxle(saved.id);
  };
  return (
    <>
      <IconButton icon="undo" label={t('ownAxle.edit.undo')} disabled={past === 0} onPress={undo} />
      <IconButton icon="redo" label={t('ownAxle.edit.redo')} disabled={future === 0} onPress={redo} />
      <p className={styles.footText}>
        <span className={styles.footKept}>{t('ownAxle.edit.kept')} </span>
        {footWords(draft.given, ready, t)}
      </p>
      <Button icon="check" disabled={!ready} onPress={save}>
        {t('ownAxle.edit.save')}
      </Button>
    </>
  );
}

function footWords(given: readonly string[], ready: boolean, t: Translate): string {
  const examples = CALIPER_FIELDS.filter(({ name }) => !given.includes(name));
  const names = examples.map(({ label }) => t(label)).join(', ');
  return [
    t('ownAxle.edit.examplesLeft', { count: examples.length, names }),
    ...(ready ? [] : [t('ownAxle.edit.notYet')]),
  ].join(' ');
}
