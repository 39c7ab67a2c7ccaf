import { type ReactNode, useState } from 'react';
import {
  COMPOUND_COLOURS,
  COMPOUNDS,
  DETAIL_LEVELS,
  FINE_STEPS,
  THEMES,
  type Theme,
  usePreferences,
} from '../../state/preferences.ts';
import { deviceStorage } from '../../storage/device.ts';
import { forgetUnread, listUnread } from '../../storage/unread.ts';
import { useText } from '../../text/useText.ts';
import { formatLength } from '../../units/format.ts';
import { UnitsChoice } from '../UnitsChoice.tsx';
import { Button, Choice, Switch } from '../ui/controls.tsx';
import { Sheet } from '../ui/Sheet.tsx';
import styles from './sheets.module.css';

export interface SettingsSheetProps {
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
  readonly theme: Theme;
  readonly onShare: () => void;
  readonly onHelp: () => void;
  readonly onAbout: () => void;
}

export function SettingsSheet({ open, onOpenChange, theme, onShare, onHelp, onAbout }: SettingsSheetProps) {
  const t = useText();
  return (
    <Sheet title={t('app.settings')} open={open} onOpenChange={onOpenChange}>
      <SettingsBody theme={theme} />
      <div className={styles.foot}>
        <Button quiet icon="share" onPress={onShare}>
          {t('app.share')}
        </Button>
        <Button quiet icon="help" onPress={onHelp}>
          {t('app.help')}
        </Button>
        <Button quiet onPress={onAbout}>
          {t('app.about')}
        </Button>
        <Button quiet icon="reset" onPress={() => usePreferences.getState().reset()}>
          {t('app.settings.reset')}
        </Button>
      </div>
    </Sheet>
  );
}

function SettingsBody({ theme }: { readonly theme: Theme }) {
  const t = useText();
  const { compound, detail, fine, fineStep, singleKeys, units, change } = usePreferences();
  return (
    <div className={styles.rows}>
      <Row name={t('app.theme.label')}>
        <Choice
          label={t('app.theme.label')}
          name="theme"
          value={theme}
          options={THEMES.map((value) => ({ value, text: t(`app.theme.${value}`) }))}
          onChoose={(chosen) => change({ theme: chosen })}
        />
      </Row>
      <Row name={t('app.units.label')}>
        <UnitsChoice name="units-settings" />
      </Row>
      <Row name={t('app.settings.compound')} why={t('app.settings.compound.why')}>
        <Choice
          label={t('app.settings.compound')}
          name="compound"
          value={compound ?? 'yellow'}
          options={COMPOUNDS.map((value) => ({
            value,
            text: (
              <>
                <span className={styles.swatch} style={{ background: COMPOUND_COLOURS[value] }} />
                {t(`app.compound.${value}`)}
              </>
            ),
          }))}
          onChoose={(chosen) => change({ compound: chosen })}
        />
      </Row>
      <Row name={t('app.settings.detail')} why={t('app.settings.detail.why')}>
        <Choice
          label={t('app.settings.detail')}
          name="detail"
          value={detail}
          options={DETAIL_LEVELS.map((value) => ({ value, text: t(`app.detail.${value}`) }))}
          onChoose={(chosen) => change({ detail: chosen })}
        />
      </Row>
      <Row name={t('app.settings.steps')}>
        <Switch on={fine} onChange={(on) => change({ fine: on })}>
          {t('app.settings.fine')}
        </Switch>
        <Choice
          label={t('app.settings.fine.step')}
          name="fine-step"
          value={String(fineStep)}
          options={FINE_STEPS.map((step) => ({
            value: String(step),
            text: formatLength(step, units, { decimals: units === 'in' ? 5 : step < 0.01 ? 3 : 2 }),
          }))}
          onChoose={(chosen) => {
            const step = FINE_STEPS.find((one) => String(one) === chosen);
            if (step !== undefined) change({ fineStep: step });
          }}
        />
      </Row>
      <Row name={t('app.settings.keys')}>
        <Switch on={singleKeys} onChange={(on) => change({ singleKeys: on })}>
          {t('app.settings.keys.single')}
        </Switch>
      </Row>
      <UnreadRow />
    </div>
  );
}

function Row({ name, why, children }: { name: string; why?: string; children: ReactNode }) {
  return (
    <section className={styles.row} aria-label={name}>
      <div>
        <h3 className={styles.rowName}>{name}</h3>
        {why !== undefined && <p className={styles.why}>{why}</p>}
      </div>
      <div className={styles.rowControl}>{children}</div>
    </section>
  );
}

/** Whatever could not be read, word for word, to copy out or delete. */
function UnreadRow() {
  const t = useText();
  const [items, setItems] = useState(() => listUnread(deviceStorage));
  return (
    <Row name={t('app.settings.unread')}>
      {items.length === 0 ? (
        <p className={styles.why}>{t('app.settings.unread.none')}</p>
      ) : (
        <>
          <ul className={styles.unread}>
            {items.map((item) => (
              <li key={item.text}>
                <span className={styles.why}>{t(`app.settings.unread.${item.source}`)}</span>
                <code>{item.text}</code>
              </li>
            ))}
          </ul>
          <Button
            onPress={() => {
              forgetUnread(deviceStorage);
              setItems([]);
            }}
          >
            {t('app.settings.unread.forget')}
          </Button>
        </>
      )}
    </Row>
  );
}
