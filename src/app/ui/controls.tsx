import type { ReactNode } from 'react';
import styles from './controls.module.css';
import { Icon, type IconName } from './Icon.tsx';

export interface ButtonProps {
  readonly children: ReactNode;
  readonly icon?: IconName;
  readonly quiet?: boolean;
  readonly disabled?: boolean;
  readonly onPress: () => void;
}

export function Button({ children, icon, quiet = false, disabled = false, onPress }: ButtonProps) {
  return (
    <button
      type="button"
      className={quiet ? `${styles.button} ${styles.quiet}` : styles.button}
      disabled={disabled}
      onClick={onPress}
    >
      {icon !== undefined && <Icon name={icon} />}
      {children}
    </button>
  );
}

export interface IconButtonProps {
  readonly label: string;
  readonly icon: IconName;
  readonly disabled?: boolean;
  readonly onPress: () => void;
}

/** `label` is its name for screen readers and its tooltip. */
export function IconButton({ label, icon, disabled = false, onPress }: IconButtonProps) {
  return (
    <button
      type="button"
      className={`${styles.iconButton} ${styles.quiet}`}
      aria-label={label}
      title={label}
      disabled={disabled}
      onClick={onPress}
    >
      <Icon name={icon} size={22} />
    </button>
  );
}

export interface ToggleButtonProps {
  readonly label: string;
  readonly icon: IconName;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
}

/** A small button that stays down. */
export function ToggleButton({ label, icon, on, onChange }: ToggleButtonProps) {
  return (
    <button
      type="button"
      className={`${styles.iconButton} ${styles.quiet} ${styles.toggle}`}
      aria-label={label}
      title={label}
      aria-pressed={on}
      onClick={() => onChange(!on)}
    >
      <Icon name={icon} size={22} />
    </button>
  );
}

/** The large − and + beside a shim. */
export function StepButton({ label, icon, disabled = false, onPress }: IconButtonProps) {
  return (
    <button
      type="button"
      className={styles.step}
      aria-label={label}
      title={label}
      disabled={disabled}
      onClick={onPress}
    >
      <Icon name={icon} size={28} />
    </button>
  );
}

export interface ChoiceProps<T extends string> {
  /** names the group; also the radio group's name in the page */
  readonly label: string;
  readonly name: string;
  readonly options: readonly { readonly value: T; readonly text: ReactNode; readonly label?: string }[];
  readonly value: T;
  readonly onChoose: (value: T) => void;
}

/** One of a few, all in sight: native radio buttons, so that arrow keys and screen readers work as they always do. */
export function Choice<T extends string>({ label, name, options, value, onChoose }: ChoiceProps<T>) {
  return (
    <fieldset className={styles.choice}>
      <legend className="visually-hidden">{label}</legend>
      {options.map((option) => (
        <label key={option.value} title={option.label}>
          <input
            type="radio"
            name={name}
            aria-label={option.label}
            checked={option.value === value}
            onChange={() => onChoose(option.value)}
          />
          {option.text}
        </label>
      ))}
    </fieldset>
  );
}

export interface SwitchProps {
  readonly children: ReactNode;
  /** id of the element that says more */
  readonly describedBy?: string;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
}

export function Switch({ children, describedBy, on, onChange }: SwitchProps) {
  return (
    <label className={styles.switch}>
      <input
        type="checkbox"
        role="switch"
        checked={on}
        aria-checked={on}
        aria-describedby={describedBy}
        onChange={(event) => onChange(event.target.checked)}
      />
      <span>{children}</span>
    </label>
  );
}
