import { Button, Switch } from '../../../app/ui/controls.tsx';
import { axleOf, SHIPPED_AXLES } from '../../../state/axles.ts';
import { LEFT_STANDS, type LeftStand, useCompare } from '../../../state/compare.ts';
import { useOwnAxles } from '../../../state/ownAxles.ts';
import { useShownSetup } from '../../../state/shownSetup.ts';
import { useText } from '../../../text/useText.ts';
import { leftAxleId, READY_PAIRS, readyPair, withAxle, withStand } from './leftChoice.ts';
import styles from './sideBySide.module.css';

const THIS_AXLE = 'this';
const PAIR = 'pair ';

/** What stands on the left, and whether the cameras go together. */
export function LeftPicker() {
  const t = useText();
  const left = useCompare((state) => state.left);
  const linked = useCompare((state) => state.linked);
  const presentId = useShownSetup(({ setup }) => setup.axleId);
  const own = useOwnAxles((state) => state.axles);
  const { choose, keepPresent, setLinked } = useCompare.getState();
  const axleId = left.stand === 'kept' ? left.setup.axleId : left.axleId;
  const offered = [...SHIPPED_AXLES, ...own];
  // an own axle that was changed or deleted since may still stand there
  const former = axleId === null || offered.some(({ id }) => id === axleId) ? [] : [axleOf(axleId)];
  const same = leftAxleId(left, presentId) === presentId;

  const pickAxle = (value: string) => {
    const pair = READY_PAIRS.find((one) => `${PAIR}${one}` === value);
    if (pair !== undefined) choose(readyPair(pair, presentId));
    else choose(withAxle(left, value === THIS_AXLE ? null : value, presentId));
  };
  return (
    <div className={styles.picker}>
      <label className={styles.select}>
        <span>{t('twin.left')}</span>
        <select
          aria-label={t('twin.axle')}
          value={axleId ?? THIS_AXLE}
          onChange={(event) => pickAxle(event.target.value)}
        >
          <option value={THIS_AXLE}>{t('twin.axle.this')}</option>
          <optgroup label={t('twin.pairs')}>
            {READY_PAIRS.map((pair) => (
              <option key={pair} value={`${PAIR}${pair}`}>
                {t(`twin.pair.${pair}`)}
              </option>
            ))}
          </optgroup>
          <optgroup label={t('twin.axles')}>
            {[...offered, ...former].map(({ id, axle }) => (
              <option key={id} value={id}>
                {axle.name}
              </option>
            ))}
          </optgroup>
        </select>
      </label>
      <span className={styles.select}>
        <select
          aria-label={t('twin.stand')}
          value={left.stand}
          onChange={(event) => choose(withStand(left, event.target.value as LeftStand))}
        >
          {left.stand === 'kept' && <option value="kept">{t('twin.stand.kept')}</option>}
          {LEFT_STANDS.map((stand) => (
            <option key={stand} value={stand} disabled={stand === 'alike' && same}>
              {t(`twin.stand.${stand}`)}
            </option>
          ))}
        </select>
      </span>
      <Button onPress={keepPresent}>{t('twin.keep')}</Button>
      <Switch on={linked} onChange={setLinked}>
        {t('twin.linked')}
      </Switch>
    </div>
  );
}
