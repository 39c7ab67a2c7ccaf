import { Select } from '@base-ui/react/select';
import type { AxleDefinition } from '../../../models/axle.ts';
import { Icon } from '../../app/ui/Icon.tsx';
import { KNOWN_AXLES } from '../../state/axles.ts';
import { chooseAxle } from '../../state/moves.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import type { Translate } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import styles from './AxleChooser.module.css';

const ITEMS = KNOWN_AXLES.map(({ id, axle }) => ({ value: id, label: axle.name }));

/** Which axle is on the bench. */
export function AxleChooser() {
  const t = useText();
  const axleId = useShownSetup(({ setup }) => setup.axleId);
  const chosen = KNOWN_AXLES.find(({ id }) => id === axleId);
  return (
    <Select.Root
      items={ITEMS}
      value={axleId}
      onValueChange={(value) => {
        if (value !== null) chooseAxle(value);
      }}
    >
      <Select.Trigger className={styles.trigger} aria-label={t('explore.axle.label')}>
        <span className={styles.chosen}>
          <Select.Value className={styles.name} />
          {chosen !== undefined && <span className={styles.facts}>{factsOf(chosen.axle, t)}</span>}
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
              {KNOWN_AXLES.map(({ id, axle }) => (
                <Select.Item key={id} value={id} className={styles.item}>
                  <span className={styles.tick}>
                    <Select.ItemIndicator>
                      <Icon name="check" size={18} />
                    </Select.ItemIndicator>
                  </span>
                  <span className={styles.itemText}>
                    <Select.ItemText className={styles.name}>{axle.name}</Select.ItemText>
                    <span className={styles.facts}>{factsOf(axle, t)}</span>
                    <span className={styles.description}>{axle.description}</span>
                  </span>
                </Select.Item>
              ))}
            </Select.List>
          </Select.Popup>
        </Select.Positioner>
      </Select.Portal>
    </Select.Root>
  );
}

function factsOf(axle: AxleDefinition, t: Translate): string {
  const { pinionTeeth, ringTeeth, cut } = axle.gearset;
  const facts: string[] = [];
  if (axle.fictional) facts.push(t('explore.axle.fictional'));
  facts.push(
    t('explore.axle.ratio', { pinion: pinionTeeth, ring: ringTeeth }),
    t(`explore.axle.${cut.method}`),
  );
  if (axle.hand === 'reverse-cut') facts.push(t('explore.axle.reverse-cut'));
  return facts.join(' · ');
}
