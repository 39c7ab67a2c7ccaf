import { memo, useEffect, useRef } from 'react';
import { useText } from '../../text/useText.ts';
import styles from './HousingStage.module.css';
import type { PartName } from './parts.ts';
import type { PartInfo } from './partWords.ts';

export interface PartListProps {
  readonly parts: readonly PartInfo[];
  readonly selected: PartName | null;
  readonly onSelect: (part: PartName | null) => void;
  readonly onPoint: (part: PartName | null) => void;
}

/** Every part with what it does, in words: the picture for whoever does not see it. */
export const PartList = memo(function PartList({ parts, selected, onSelect, onPoint }: PartListProps) {
  const t = useText();
  const list = useRef<HTMLUListElement>(null);

  // what was chosen in the picture comes into sight here, within the list's own scroll
  useEffect(() => {
    if (selected === null) return;
    const item = list.current?.querySelector<HTMLElement>(`[data-part="${selected}"]`);
    const box = list.current?.parentElement;
    if (!item || !box || box.scrollHeight <= box.clientHeight) return;
    const above = item.offsetTop - box.scrollTop;
    if (above < 0 || above + item.offsetHeight > box.clientHeight) box.scrollTop = item.offsetTop;
  }, [selected]);

  return (
    <ul ref={list} className={styles.parts} aria-label={t('housing.parts')}>
      {parts.map(({ name, title, value, words }) => {
        const open = name === selected;
        return (
          <li key={name} data-part={name} data-open={open}>
            <button
              type="button"
              className={styles.part}
              aria-expanded={open}
              onClick={() => onSelect(open ? null : name)}
              onPointerEnter={(event) => event.pointerType === 'mouse' && onPoint(name)}
              onPointerLeave={() => onPoint(null)}
              onFocus={(event) => event.target.matches(':focus-visible') && onPoint(name)}
              onBlur={() => onPoint(null)}
            >
              <i className={styles.swatch} data-shim={SHIMS.has(name)} aria-hidden="true" />
              <span>{title}</span>
              {value !== null && <b>{value}</b>}
            </button>
            {open && (
              <div className={styles.does}>
                {words.map((sentence) => (
                  <p key={sentence}>{sentence}</p>
                ))}
              </div>
            )}
          </li>
        );
      })}
    </ul>
  );
});

/** What a person changes. */
const SHIMS: ReadonlySet<PartName> = new Set(['pinion-shim', 'ring-side', 'opposite-side', 'spacer-stack']);
