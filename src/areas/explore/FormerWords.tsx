import { useEffect, useState } from 'react';
import { useMesh } from '../../state/mesh.ts';
import { useTraces } from '../../state/traces.ts';
import { moves as texts } from '../../text/en/moves.ts';
import { addTexts } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { changeWords } from './moveWords.ts';

addTexts(texts);

/** ms of rest before it is said */
const REST = 600;

/** How the marks moved since the former one, for those who do not see it. */
export function FormerWords() {
  const t = useText();
  const former = useTraces((state) => state.former);
  const [words, setWords] = useState('');
  useEffect(() => {
    const say = () => {
      const { shown } = useMesh.getState();
      const same = shown !== null && former !== null && shown.axleId === former.axleId;
      setWords(same ? changeWords(former.result, shown.result, t) : '');
    };
    let timer = window.setTimeout(say, REST);
    const end = useMesh.subscribe((state, before) => {
      if (state.shown === before.shown) return;
      window.clearTimeout(timer);
      timer = window.setTimeout(say, REST);
    });
    return () => {
      end();
      window.clearTimeout(timer);
    };
  }, [former, t]);
  return (
    <p className="visually-hidden" aria-live="polite" aria-atomic="true">
      {words}
    </p>
  );
}
