import { type ReactNode, useRef, useState } from 'react';
import { problemLine } from '../../../../models/problem.ts';
import { Button } from '../../../app/ui/controls.tsx';
import { Icon, type IconName } from '../../../app/ui/Icon.tsx';
import { Sheet } from '../../../app/ui/Sheet.tsx';
import { saveFile } from '../../../app/ui/saveFile.ts';
import { useArea } from '../../../state/area.ts';
import { useAxleDesk } from '../../../state/axleDesk.ts';
import { type AxleDraft, draftOf, newDraft } from '../../../state/axleDraft.ts';
import { useAxleDrafts } from '../../../state/axleDrafts.ts';
import { type KnownAxle, SHIPPED_AXLES } from '../../../state/axles.ts';
import { useCompare } from '../../../state/compare.ts';
import { chooseAxle } from '../../../state/moves.ts';
import { deleteFromBench } from '../../../state/ownAxleBench.ts';
import { forgetDeletedAxles, newAxleKey, restoreOwnAxle, useOwnAxles } from '../../../state/ownAxles.ts';
import { useSetup } from '../../../state/setup.ts';
import { useView } from '../../../state/view.ts';
import { useText } from '../../../text/useText.ts';
import { factsOf } from '../axleFacts.ts';
import { copyName, fileOf, importAxle } from './importAxle.ts';
import styles from './ownAxle.module.css';

/** What was just done, and what takes it back. */
interface Said {
  readonly text: string;
  readonly takeBack?: (() => void) | undefined;
  /** lines of a file that was refused */
  readonly problems?: readonly string[];
}

const MOST_PROBLEMS = 8;

/** Every own axle with what can be done with it. */
export function AxleList() {
  const t = useText();
  const show = useAxleDesk((state) => state.show);
  const own = useOwnAxles();
  const drafts = useAxleDrafts((state) => state.drafts);
  const benchId = useSetup((state) => state.live.axleId);
  const [said, setSaid] = useState<Said | null>(null);

  const openEditor = (draft: AxleDraft) => {
    useAxleDrafts.getState().begin(draft);
    show('editor');
  };
  const copy = ({ axle }: KnownAxle) => {
    const draft = draftOf(axle, { key: newAxleKey(), changes: false, source: axle.name });
    openEditor({ ...draft, entries: { ...draft.entries, name: copyName(axle.name, t) } });
  };
  const use = (id: string) => {
    chooseAxle(id);
    show(null);
  };
  /** As far from their design positions as each other, side by side with the one on the bench. */
  const compare = ({ id }: KnownAxle) => {
    useCompare.getState().choose({ stand: 'alike', axleId: id });
    useView.getState().showPicture('side-by-side');
    useArea.getState().go('explore');
    show(null);
  };
  const hand = (known: KnownAxle) => {
    const file = fileOf({ key: known.key ?? newAxleKey(), axle: known.axle });
    saveFile(file.content, file.name);
    setSaid({ text: t('ownAxle.list.said.exported', { name: known.axle.name, file: file.name }) });
  };
  const remove = ({ key, axle }: KnownAxle) => {
    if (key === null) return;
    const takeBack = deleteFromBench(key);
    setSaid({
      text: t('ownAxle.list.said.deleted', { name: axle.name }),
      takeBack: () => {
        takeBack();
        setSaid({ text: t('ownAxle.list.said.restored', { name: axle.name }) });
      },
    });
  };
  const discard = (draft: AxleDraft) => {
    const name = nameOf(draft);
    const takeBack = useAxleDrafts.getState().discard(draft.key);
    setSaid({
      text: t('ownAxle.list.said.discarded', { name }),
      takeBack: () => {
        takeBack();
        setSaid({ text: t('ownAxle.list.said.restored', { name }) });
      },
    });
  };
  const take = async (file: File) => {
    const text = await file.text().catch(() => null);
    if (text === null) {
      setSaid({ text: t('ownAxle.import.unreadable') });
      return;
    }
    const imported = importAxle(text, t);
    if (imported.kind === 'refused') {
      const { problems } = imported;
      const lines = problems.slice(0, MOST_PROBLEMS).map((problem) => problemLine(problem));
      const more = problems.length - lines.length;
      setSaid({
        text: t('ownAxle.import.refused', { file: file.name }),
        problems: more > 0 ? [...lines, t('ownAxle.import.more', { count: more })] : lines,
      });
      return;
    }
    const { name } = imported.axle.axle;
    setSaid({
      text:
        imported.kind === 'copy'
          ? t('ownAxle.list.said.copy', { name: imported.here.axle.name, copy: name })
          : t(imported.kind === 'same' ? 'ownAxle.list.said.same' : 'ownAxle.list.said.imported', { name }),
    });
  };

  const line = (known: KnownAxle, ...actions: readonly ReactNode[]) => (
    <AxleLine
      key={known.id}
      name={known.axle.name}
      facts={[...(known.id === benchId ? [t('ownAxle.list.onBench')] : []), factsOf(known, t)].join(' · ')}
    >
      {actions}
    </AxleLine>
  );
  const action = (what: LineAction, icon: IconName, name: string, onPress: () => void) => (
    <ActionButton key={what} what={what} icon={icon} name={name} onPress={onPress} />
  );

  return (
    <Sheet wide title={t('ownAxle.list.title')} open onOpenChange={() => show(null)}>
      <div className={styles.list}>
        <p className={styles.lead}>{t(own.durable ? 'ownAxle.list.lead' : 'ownAxle.list.notDurable')}</p>
        <div className={styles.tools}>
          <Button icon="plus" onPress={() => openEditor(newDraft(newAxleKey()))}>
            {t('ownAxle.list.build')}
          </Button>
          <ImportButton onFile={(file) => void take(file)} />
        </div>
        <SaidLine said={said} />
        {own.unread > 0 && (
          <p className={styles.caution}>{t('ownAxle.list.unread', { count: own.unread })}</p>
        )}
        {drafts.length > 0 && (
          <Part title={t('ownAxle.list.drafts')}>
            {drafts.map((draft) => {
              const name = nameOf(draft);
              const former = own.axles.find(({ key }) => key === draft.key);
              return (
                <AxleLine
                  key={draft.key}
                  name={name}
                  facts={
                    former === undefined
                      ? t('ownAxle.list.draftNew')
                      : t('ownAxle.list.draftOf', { name: former.axle.name })
                  }
                >
                  {action('continue', 'right', name, () => openEditor(draft))}
                  {action('discard', 'trash', name, () => discard(draft))}
                </AxleLine>
              );
            })}
          </Part>
        )}
        <Part title={t('ownAxle.list.own')}>
          {own.axles.length === 0 && <li className={styles.none}>{t('ownAxle.list.none')}</li>}
          {own.axles.map((known) => {
            const { name } = known.axle;
            return line(
              known,
              ...(known.id === benchId ? [] : [action('use', 'check', name, () => use(known.id))]),
              action('edit', 'edit', name, () =>
                openEditor(draftOf(known.axle, { key: known.key ?? '', changes: true, source: null })),
              ),
              action('copy', 'copy', name, () => copy(known)),
              ...(known.id === benchId ? [] : [action('compare', 'compare', name, () => compare(known))]),
              action('export', 'export', name, () => hand(known)),
              action('delete', 'trash', name, () => remove(known)),
            );
          })}
        </Part>
        {own.deleted.length > 0 && (
          <Part title={t('ownAxle.list.deleted')} why={t('ownAxle.list.deleted.why')}>
            {own.deleted.map((known) =>
              line(
                known,
                action('restore', 'undo', known.axle.name, () => {
                  if (known.key === null) return;
                  restoreOwnAxle(known.key);
                  setSaid({ text: t('ownAxle.list.said.restored', { name: known.axle.name }) });
                }),
              ),
            )}
            <li>
              <Button quiet onPress={() => forgetDeletedAxles()}>
                {t('ownAxle.list.forget')}
              </Button>
            </li>
          </Part>
        )}
        <Part title={t('ownAxle.list.practice')} why={t('ownAxle.list.practice.why')}>
          {SHIPPED_AXLES.map((known) =>
            line(
              known,
              ...(known.id === benchId ? [] : [action('use', 'check', known.axle.name, () => use(known.id))]),
              action('copy', 'copy', known.axle.name, () => copy(known)),
            ),
          )}
        </Part>
      </div>
    </Sheet>
  );
}

function nameOf({ entries, key }: AxleDraft): string {
  const { name } = entries;
  if (typeof name === 'string' && name.trim() !== '') return name;
  return useOwnAxles.getState().axles.find((axle) => axle.key === key)?.axle.name ?? '…';
}

function Part({ title, why, children }: { title: string; why?: string; children: ReactNode }) {
  return (
    <section className={styles.part} aria-label={title}>
      <h3 className={styles.partTitle}>{title}</h3>
      {why !== undefined && <p className={styles.help}>{why}</p>}
      <ul className={styles.lines}>{children}</ul>
    </section>
  );
}

function AxleLine({ name, facts, children }: { name: string; facts: string; children: ReactNode }) {
  return (
    <li className={styles.line}>
      <div className={styles.lineText}>
        <p className={styles.lineName}>{name}</p>
        <p className={styles.help}>{facts}</p>
      </div>
      <div className={styles.lineActions}>{children}</div>
    </li>
  );
}

type LineAction =
  | 'continue'
  | 'discard'
  | 'use'
  | 'edit'
  | 'copy'
  | 'compare'
  | 'export'
  | 'delete'
  | 'restore';

interface ActionButtonProps {
  readonly what: LineAction;
  readonly icon: IconName;
  readonly name: string;
  readonly onPress: () => void;
}

/** Short words in sight, the axle's name in the name for screen readers. */
function ActionButton({ what, icon, name, onPress }: ActionButtonProps) {
  const t = useText();
  const label = t(`ownAxle.list.${what}`, { name });
  return (
    <button type="button" className={styles.action} aria-label={label} title={label} onClick={onPress}>
      <Icon name={icon} size={18} />
      <span>{t(`ownAxle.list.${what}.short`)}</span>
    </button>
  );
}

function ImportButton({ onFile }: { readonly onFile: (file: File) => void }) {
  const t = useText();
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button icon="import" onPress={() => input.current?.click()}>
        {t('ownAxle.list.import')}
      </Button>
      <input
        ref={input}
        hidden
        type="file"
        accept=".json,application/json"
        aria-label={t('ownAxle.list.import')}
        onChange={(event) => {
          const file = event.target.files?.[0];
          if (file !== undefined) onFile(file);
          // the same file can be chosen again
          event.target.value = '';
        }}
      />
    </>
  );
}

function SaidLine({ said }: { readonly said: Said | null }) {
  const t = useText();
  return (
    <div className={styles.said} role="status">
      {said !== null && (
        <>
          <p>{said.text}</p>
          {said.takeBack !== undefined && (
            <Button icon="undo" onPress={said.takeBack}>
              {t('ownAxle.list.takeBack')}
            </Button>
          )}
          {said.problems !== undefined && (
            <ul className={styles.problems}>
              {said.problems.map((problem) => (
                <li key={problem}>{problem}</li>
              ))}
            </ul>
          )}
        </>
      )}
    </div>
  );
}
