import { memo, useEffect, useId, useRef, useState } from 'react';
import styles from './MeasureField.module.css';

export type Measured =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string };

export interface MeasureFieldProps {
  readonly label: string;
  /** the value as it stands, without its unit */
  readonly text: string;
  readonly unit: string;
  /** reads what was typed; the message says what was read and what is allowed */
  readonly read: (typed: string) => Measured;
  readonly onEnter: (value: number) => void;
  readonly size?: 'reading' | 'plain';
  /** takes the focus when it appears: it was asked for just now */
  readonly focused?: boolean;
}

/**
 * A reading that can be typed over. Nothing changes until Enter or leaving the field; Escape takes the typing back;
 * what cannot be read stays in the field with the reason under it.
 */
export const MeasureField = memo(function MeasureField({
  label,
  text,
  unit,
  read,
  onEnter,
  size = 'plain',
  focused = false,
}: MeasureFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const [message, setMessage] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (focused) input.current?.focus();
  }, [focused]);

  const drop = () => {
    setTyped(null);
    setMessage(null);
  };
  const enter = () => {
    if (typed === null || typed.trim() === text) {
      drop();
      return;
    }
    const measured = read(typed);
    if (!measured.ok) {
      setMessage(measured.message);
      return;
    }
    drop();
    onEnter(measured.value);
  };

  return (
    <div className={size === 'reading' ? `${styles.field} ${styles.reading}` : styles.field}>
      <label className={styles.entry} data-wrong={message === null ? undefined : ''}>
        <input
          ref={input}
          className="numbers"
          aria-label={label}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          spellCheck={false}
          size={7}
          value={typed ?? text}
          aria-invalid={message !== null}
          aria-describedby={message === null ? `${id}-unit` : `${id}-message`}
          onFocus={() => input.current?.select()}
          onChange={(event) => setTyped(event.target.value)}
          onBlur={enter}
          onKeyDown={(event) => {
            if (event.key === 'Enter') enter();
            if (event.key === 'Escape') drop();
          }}
        />
        <span id={`${id}-unit`} className={styles.unit}>
          {unit}
        </span>
      </label>
      {message !== null && (
        <p id={`${id}-message`} className={styles.message} role="alert">
          {message}
        </p>
      )}
    </div>
  );
});
