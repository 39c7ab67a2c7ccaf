import { Icon } from '../../../app/ui/Icon.tsx';
import { useLengths } from '../../../app/ui/useLengths.ts';
import { useAnswer } from '../../../state/answer.ts';
import { useText } from '../../../text/useText.ts';
import styles from './answer.module.css';
import { headline } from './answerWords.ts';

/** On a phone the answer lies below the maps: its first line stays at the lower edge, and leads there. */
export function AnswerLine({ answerId }: { readonly answerId: string }) {
  const t = useText();
  const lengths = useLengths();
  const answered = useAnswer((state) => state.answered);
  if (answered === null) return null;
  return (
    <button
      type="button"
      className={styles.answerLine}
      onClick={() => document.getElementById(answerId)?.scrollIntoView()}
    >
      <span>{headline(answered.answer.advice, lengths, t)}</span>
      <Icon name="down" />
    </button>
  );
}
