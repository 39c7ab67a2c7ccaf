import { useMemo } from 'react';
import { MeasureField } from '../../app/ui/MeasureField.tsx';
import { type RulerMark, RulerSlider } from '../../app/ui/RulerSlider.tsx';
import { type Digits, digitsToShow, useLengths } from '../../app/ui/useLengths.ts';
import { positionsOf } from '../../state/moves.ts';
import { usePreferences } from '../../state/preferences.ts';
import { FILM_RANGE } from '../../state/ranges.ts';
import { useSetup } from '../../state/setup.ts';
import { useShownSetup } from '../../state/shownSetup.ts';
import { useText } from '../../text/useText.ts';
import { ControlBlock } from './ControlBlock.tsx';
import { useAxle } from './useAxle.ts';

const FILM_DIGITS: Digits = { mm: 3, in: 5 };

/** How thick the compound is laid on: sets the size of the mark, not the mesh. */
export function FilmControl() {
  const t = useText();
  const lengths = useLengths();
  const axle = useAxle();
  const fine = usePreferences((state) => state.fine);
  const film = useShownSetup(({ setup }) => setup.film);
  const positions = useMemo(() => positionsOf('film', fine), [fine]);
  const marks = useMemo<readonly RulerMark[]>(() => [{ at: axle.film_mm, kind: 'found' }], [axle]);
  const digits = digitsToShow(FILM_DIGITS, film);
  return (
    <ControlBlock title={t('explore.film.title')} line>
      <RulerSlider
        label={t('explore.film.slider')}
        positions={positions}
        value={film}
        valueText={lengths.say(film, digits)}
        marks={marks}
        onPreview={(value) => useSetup.getState().preview({ film: value })}
        onCommit={() => useSetup.getState().commit()}
      />
      <MeasureField
        label={t('explore.film.field')}
        text={lengths.number(film, digits)}
        unit={lengths.unitText}
        read={(typed) => lengths.read(typed, FILM_RANGE, FILM_DIGITS)}
        onEnter={(entered) => useSetup.getState().apply({ film: entered })}
      />
    </ControlBlock>
  );
}
