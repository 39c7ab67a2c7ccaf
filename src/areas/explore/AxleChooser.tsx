import { Select } from '@base-ui/react/select';
import { Icon } from '../../app/ui/Icon.tsx';
import { useAxleDesk } from '../../state/axleDesk.ts';
import { axleOf, type KnownAxle, SHIPPED_AXLES } from '../../state/axles.ts';
import { chooseAxle } from '../../state/moves.ts';
import { presentForm, useOwnAxles } from '../../state/ownAxles.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { useText } from '../../text/useText.ts';
import styles from './AxleChooser.module.css';
import { AxleDesk } from './AxleDesk.tsx';
import { factsOf } from './axleFacts.ts';

/** Lines of the list that open the desk for own axles instead of putting an axle on the bench. */
const COMMANDS = { build: 'editor', list: 'list' } as const;
type Command = keyof typeof COMMANDS;

const isCommand = (value: string): value is Command => Object.hasOwn(COMMANDS, value);

/** In the list an own axle is one and the same through all its changes. */
const valueOfAxle = ({ id, key }: KnownAxle): string => key ?? id;

/** Which axle is on the bench; the way to own ones. */
export function AxleChooser() {
  return (
    <>
      <AxleSelect />
      <AxleDesk />
    </>
  );
}

function AxleSelect() {
  const t = useText();
  const axleId = useShownSetup(({ setup }) => setup.axleId);
  const own = useOwnAxles((state) => state.axles);
  const chosen = axleOf(axleId);
  const offered = [...SHIPPED_AXLES, ...own];
  const isOffered = offered.some((known) => valueOfAxle(known) === valueOfAxle(chosen));
  return (
    <Select.Root
      value={valueOfAxle(chosen)}
      onValueChange={(value, { reason }) => {
        // the list itself would put something else in the place of an axle that is no longer offered
        if (value === null || (reason === 'none' && !isOffered)) return;
        if (isCommand(value)) useAxleDesk.getState().show(COMMANDS[value]);
        else chooseAxle(presentForm(value)?.id ?? value);
      }}
    >
      <Select.Trigger className={styles.trigger} aria-label={t('explore.axle.label')}>
        <span className={styles.chosen}>
          <Select.Value className={styles.name}>{chosen.axle.name}</Select.Value>
          <span className={styles.facts}>{factsOf(chosen, t)}</span>
        </span>
        <Icon name="down" />
      </Select.Trigger>
      <Select.Portal>
        <Select.Positioner
          className={styles.positioner}
          sideOffset={4}
          align="start"
          alignItemWithTrigger={false}
        >
          <Select.Popup className={styles.popup}>
            <Select.List>
              {offered.map((known) => (
                <AxleItem key={valueOfAxle(known)} known={known} />
              ))}
              <CommandItem command="build" />
              <CommandItem command="list" />
            </Select.List>
          </Select.Popup>
        </Select.Positioner>
      </Select.Portal>
    </Select.Root>
  );
}

function AxleItem({ known }: { readonly known: KnownAxle }) {
  const t = useText();
  return (
    <Select.Item value={valueOfAxle(known)} className={styles.item}>
      <span className={styles.tick}>
        <Select.ItemIndicator>
          <Icon name="check" size={18} />
        </Select.ItemIndicator>
      </span>
      <span className={styles.itemText}>
        <Select.ItemText className={styles.name}>{known.axle.name}</Select.ItemText>
        <span className={styles.facts}>{factsOf(known, t)}</span>
        <span className={styles.description}>{known.axle.description}</span>
      </span>
    </Select.Item>
  );
}

function CommandItem({ command }: { readonly command: Command }) {
  const t = useText();
  return (
    <Select.Item value={command} className={`${styles.item} ${styles.command}`}>
      <span className={styles.tick}>
        <Icon name={command === 'build' ? 'plus' : 'settings'} size={18} />
      </span>
      <span className={styles.itemText}>
        <Select.ItemText className={styles.name}>{t(`explore.axle.${command}`)}</Select.ItemText>
        <span className={styles.facts}>{t(`explore.axle.${command}.why`)}</span>
      </span>
    </Select.Item>
  );
}
