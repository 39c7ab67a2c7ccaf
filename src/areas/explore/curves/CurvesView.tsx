import { useDeferredValue, useMemo, useState } from 'react';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import { Choice, Switch } from '../../../app/ui/controls.tsx';
import { RulerSlider } from '../../../app/ui/RulerSlider.tsx';
import { COARSE_DIGITS, type Digits, useLengths } from '../../../app/ui/useLengths.ts';
import { FLANK_ORDER } from '../../../flank/flankGeometry.ts';
import { axleOf } from '../../../state/axles.ts';
import { type ShownMesh, useMesh } from '../../../state/mesh.ts';
import { useText } from '../../../text/useText.ts';
import { formatMicrorad, formatNumber } from '../../../units/format.ts';
import { mmTo } from '../../../units/length.ts';
import styles from './curves.module.css';
import { LineChart } from './LineChart.tsx';
import { NumbersTable } from './NumbersTable.tsx';
import { PairBars, pairName } from './PairBars.tsx';
import { type FlankPairs, pairsOf } from './pairRows.ts';
import { aboutMean, dialScales, scaled, spanOf } from './phaseCurves.ts';

type Shaft = 'ring' | 'pinion';
type Way = 'square' | 'tangential';

const DIAL_DIGITS: Digits = { mm: 4, in: 5 };
const MICRORADIANS = 1e6;

/** What happens while one tooth pitch rolls through the mesh. */
export function CurvesView() {
  const t = useText();
  // maps and readings first
  const shown = useDeferredValue(useMesh((state) => state.shown));
  return (
    <section className={styles.curves} aria-label={t('curves.region')}>
      {shown === null ? <p className={styles.waiting}>{t('curves.waiting')}</p> : <Curves shown={shown} />}
    </section>
  );
}

function Curves({ shown }: { readonly shown: ShownMesh }) {
  const t = useText();
  const [place, setPlace] = useState(0);
  const [shaft, setShaft] = useState<Shaft>('ring');
  const places = shown.result.freePlayCurve.length;
  const pairs = usePairs(shown);
  const props = { shown, place, onPlace: setPlace };
  return (
    <>
      <div className={styles.panes}>
        <Transmission {...props} shaft={shaft} onShaft={setShaft} />
        <Lash {...props} />
        {FLANK_ORDER.map((flank) => (
          <Pairs key={flank} {...props} flank={flank} pairs={pairs[flank]} />
        ))}
        <PairSigns />
      </div>
      <Reading {...props} places={places} pairs={pairs} shaft={shaft} />
      <details className={styles.details}>
        <summary className={styles.summary}>{t('curves.numbers.title')}</summary>
        <NumbersTable shown={shown} />
      </details>
    </>
  );
}

type BothPairs = Readonly<Record<FlankName, FlankPairs>>;

function usePairs({ axleId, result }: ShownMesh): BothPairs {
  return useMemo(() => {
    const { ringTeeth } = axleOf(axleId).axle.gearset;
    return { drive: pairsOf(result, 'drive', ringTeeth), coast: pairsOf(result, 'coast', ringTeeth) };
  }, [axleId, result]);
}

interface PartProps {
  readonly shown: ShownMesh;
  readonly place: number;
  readonly onPlace: (place: number) => void;
}

const perShaft = ({ loaded }: ShownMesh, shaft: Shaft): number =>
  MICRORADIANS * (shaft === 'pinion' ? loaded.gearRatio : 1);

function useTransmission(shown: ShownMesh, shaft: Shaft) {
  return useMemo(
    () =>
      FLANK_ORDER.map((flank) => ({
        id: flank,
        values: aboutMean(shown.result[flank].transmissionErrorCurve, perShaft(shown, shaft)),
      })),
    [shown, shaft],
  );
}

function Transmission({
  shown,
  place,
  onPlace,
  shaft,
  onShaft,
}: PartProps & { readonly shaft: Shaft; readonly onShaft: (shaft: Shaft) => void }) {
  const t = useText();
  const lines = useTransmission(shown, shaft);
  const sizes = lines.map(({ id, values }) => {
    const { least, most } = spanOf(values);
    const amount = Number.isNaN(most) ? t('curves.none') : formatMicrorad(most - least, { decimals: 1 });
    return { id, amount };
  });
  const domain = useMemo<readonly [number, number]>(() => {
    const spans = lines.map(({ values }) => spanOf(values)).filter(({ most }) => !Number.isNaN(most));
    const reach = Math.max(1, ...spans.map(({ least, most }) => Math.max(-least, most)));
    return [-reach, reach];
  }, [lines]);
  const words = (index: number) =>
    t('curves.of', {
      name: t(`flank.name.${sizes[index].id}`),
      value: t('curves.te.size', { amount: sizes[index].amount }),
    });
  return (
    <section className={styles.part}>
      <header className={styles.head}>
        <h3 className={styles.title}>{t('curves.te.title')}</h3>
        <Choice
          name="curves-shaft"
          label={t('curves.te.at')}
          options={[
            { value: 'ring', text: t('curves.te.ring') },
            { value: 'pinion', text: t('curves.te.pinion') },
          ]}
          value={shaft}
          onChoose={onShaft}
        />
      </header>
      <ul className={styles.legend}>
        {sizes.map(({ id, amount }) => (
          <li key={id}>
            <LineSign flank={id} />
            {t(`flank.name.${id}`)} <b className="numbers">{amount}</b>
          </li>
        ))}
        <li>{t('curves.te.peak')}</li>
      </ul>
      <LineChart
        label={t('curves.te.label', { drive: words(0), coast: words(1) })}
        lines={lines}
        domain={domain}
        unitText="µrad"
        place={place}
        onPlace={onPlace}
      />
      <p className={styles.why}>{t('curves.te.why')}</p>
    </section>
  );
}

function LineSign({ flank }: { readonly flank: FlankName }) {
  return (
    <svg className={styles.sign} viewBox="0 0 28 10" width="28" height="10" aria-hidden="true">
      <path className={styles.line} data-line={flank} d="M1 5H27" />
    </svg>
  );
}

function Pairs({
  shown,
  place,
  onPlace,
  flank,
  pairs,
}: PartProps & { readonly flank: FlankName; readonly pairs: FlankPairs }) {
  const t = useText();
  const name = t(`flank.name.${flank}`);
  const ratio = t('curves.pairs.ratio', { ratio: shown.result[flank].contactRatio });
  return (
    <section className={styles.part}>
      <header className={styles.head}>
        <h3 className={styles.title}>{t('curves.pairs.title', { flank: name })}</h3>
        <p className={`${styles.size} numbers`}>{ratio}</p>
      </header>
      <PairBars
        label={t('curves.pairs.label', { flank: name, ratio })}
        pairs={pairs}
        places={shown.result.freePlayCurve.length}
        place={place}
        onPlace={onPlace}
      />
    </section>
  );
}

/** What the bars of the pairs mean. */
function PairSigns() {
  const t = useText();
  return (
    <ul className={styles.legend}>
      {(['meets', 'marks', 'carries'] as const).map((part) => (
        <li key={part}>
          <svg className={styles.sign} viewBox="0 0 28 10" width="28" height="10" aria-hidden="true">
            <g className={styles.pair}>
              <rect
                data-part={part}
                x="1"
                width="26"
                y={part === 'meets' ? 3.5 : 0.5}
                height={part === 'meets' ? 3 : 9}
              />
            </g>
          </svg>
          {t(`curves.pairs.${part}`)}
        </li>
      ))}
    </ul>
  );
}

function Lash({ shown, place, onPlace }: PartProps) {
  const t = useText();
  const lengths = useLengths();
  const { limits } = axleOf(shown.axleId).axle;
  const [chosenWay, setWay] = useState<Way | null>(null);
  const [close, setClose] = useState(false);
  const way = chosenWay ?? limits.backlash.reads;
  const { result } = shown;
  const factor = mmTo(lengths.unit, dialScales(result)[way]);
  const lines = useMemo(
    () => [{ id: 'lash', values: scaled(result.freePlayCurve, factor) }],
    [result, factor],
  );
  const { least, most, mean } = spanOf(result.freePlayCurve);
  const mm = dialScales(result)[way];
  const say = (turn: number) => lengths.say(turn * mm, DIAL_DIGITS);
  const has = !Number.isNaN(mm);
  const words = has
    ? t('curves.lash.size', { least: say(least), mean: say(mean), range: say(most - least) })
    : t('curves.none');
  const inBand = way === limits.backlash.reads;
  const banded = !close && inBand;
  const band = banded
    ? { from: mmTo(lengths.unit, limits.backlash.min), to: mmTo(lengths.unit, limits.backlash.max) }
    : undefined;
  const span = spanOf(lines[0].values);
  const margin = (span.most - span.least) * 0.15 || mmTo(lengths.unit, 0.001);
  const domain: readonly [number, number] = !has
    ? [0, mmTo(lengths.unit, limits.backlash.max)]
    : close
      ? [span.least - margin, span.most + margin]
      : [Math.min(0, span.least), Math.max(span.most, mmTo(lengths.unit, limits.backlash.max) * 1.1)];
  return (
    <section className={styles.part}>
      <header className={styles.head}>
        <h3 className={styles.title}>{t('curves.lash.title')}</h3>
        <Choice
          name="curves-way"
          label={t('curves.lash.way')}
          options={(['square', 'tangential'] as const).map((value) => ({
            value,
            text: t(`explore.backlash.${value}`),
          }))}
          value={way}
          onChoose={setWay}
        />
      </header>
      <p className={`${styles.size} numbers`}>{words}</p>
      <LineChart
        label={t('curves.lash.label', { words })}
        lines={lines}
        domain={domain}
        band={band}
        unitText={lengths.unitText}
        foot={t('curves.axis')}
        place={place}
        onPlace={onPlace}
      />
      <div className={styles.head}>
        <p className={styles.why}>
          {inBand
            ? t('curves.lash.band', {
                least: lengths.say(limits.backlash.min, COARSE_DIGITS),
                most: lengths.say(limits.backlash.max, COARSE_DIGITS),
              })
            : t('curves.lash.other', { reads: limits.backlash.reads })}
        </p>
        <Switch on={close} onChange={setClose}>
          {t('curves.lash.close')}
        </Switch>
      </div>
    </section>
  );
}

/** The place that is read: moved by the ruler, by keys or by pointing into a chart. */
function Reading({
  shown,
  place,
  onPlace,
  places,
  pairs,
  shaft,
}: PartProps & { readonly places: number; readonly pairs: BothPairs; readonly shaft: Shaft }) {
  const t = useText();
  const lengths = useLengths();
  const lines = useTransmission(shown, shaft);
  const positions = useMemo(() => Array.from({ length: places }, (_, k) => k), [places]);
  const { result } = shown;
  const scales = dialScales(result);
  const play = result.freePlayCurve[place];
  const dial = (way: Way) =>
    Number.isNaN(play * scales[way]) ? t('curves.none') : lengths.say(play * scales[way], DIAL_DIGITS);
  const flankWords = FLANK_ORDER.map((flank, index) => {
    const value = lines[index].values[place];
    const meeting = pairs[flank].meeting[place].length;
    const carrying = pairs[flank].carrying[place];
    const error = Number.isNaN(value) ? t('curves.none') : formatMicrorad(value, { decimals: 1 });
    return {
      flank,
      text: `${error}, ${t('curves.place.pair', { meeting, pair: pairName(carrying ?? 0) })}`,
    };
  });
  const where = t('curves.place.value', { share: place / places });
  const rows = [
    ...flankWords.map(({ flank, text }) => ({ name: t(`flank.name.${flank}`), text })),
    ...(['square', 'tangential'] as const).map((way) => ({
      name: t(`explore.backlash.${way}`),
      text: dial(way),
    })),
  ];
  return (
    <section className={styles.strip} aria-label={t('curves.place')}>
      <div>
        <p className={styles.stripHead}>
          <b>{t('curves.place')}</b> <span className="numbers">{formatNumber(place / places, 2)}</span>
        </p>
        <RulerSlider
          label={t('curves.place')}
          positions={positions}
          value={place}
          valueText={[where, ...rows.map(({ name, text }) => `${name} ${text}`)].join('; ')}
          onPreview={onPlace}
          onCommit={NOTHING}
        />
      </div>
      <dl className={`${styles.reading} numbers`}>
        {rows.map(({ name, text }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

const NOTHING = () => {};
