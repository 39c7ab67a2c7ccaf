import { useEffect } from 'react';
import { useAxleDesk } from '../../../state/axleDesk.ts';
import { newDraft } from '../../../state/axleDraft.ts';
import { keepDrafts, useAxleDrafts } from '../../../state/axleDrafts.ts';
import { newAxleKey } from '../../../state/ownAxles.ts';
import { ownAxle } from '../../../text/en/ownAxle.ts';
import { addTexts } from '../../../text/translate.ts';
import { AxleEditor } from './AxleEditor.tsx';
import { AxleList } from './AxleList.tsx';

addTexts(ownAxle);
keepDrafts();

/** Opens the unfinished axle from a caliper, or an empty one. */
function beginFromCaliper(): void {
  const { drafts, open, begin } = useAxleDrafts.getState();
  if (open !== null) return;
  begin(drafts.find(({ changes, source }) => !changes && source === null) ?? newDraft(newAxleKey()));
}

/** The list of own axles, or the editor with one of them. */
export function OwnAxleDesk() {
  const part = useAxleDesk((state) => state.open);
  const open = useAxleDrafts((state) => state.open);
  useEffect(() => {
    if (part === 'editor') beginFromCaliper();
  }, [part]);
  if (part === 'editor') return open === null ? null : <AxleEditor key={open} />;
  return <AxleList />;
}
