import { useCallback, useState } from 'react';
import type { FlankName } from '../../../sim/gearset/definition.ts';
import type { MapFrame } from '../../flank/FlankMap.tsx';
import { FLANK_ORDER } from '../../flank/flankGeometry.ts';
import { followLook, useAnswer } from '../../state/answer.ts';
import { axleOf } from '../../state/axles.ts';
import { lookAt, useLook } from '../../state/look.ts';
import { keepLooks } from '../../state/lookRecord.ts';
import { useMesh } from '../../state/mesh.ts';
import type { PaintedMark } from '../../state/paintedMark.ts';
import { COMPOUND_COLOURS, usePreferences } from '../../state/preferences.ts';
import { useSetup } from '../../state/setup.ts';
import { followTrials, openTrials } from '../../state/trials.ts';
import { match } from '../../text/en/match.ts';
import { matchAnswer } from '../../text/en/matchAnswer.ts';
import { trials } from '../../text/en/trials.ts';
import { addTexts } from '../../text/translate.ts';
import { useText } from '../../text/useText.ts';
import { AnswerLine } from './answer/AnswerLine.tsx';
import { AnswerPanel } from './answer/AnswerPanel.tsx';
import { NearestLayer } from './answer/NearestLayer.tsx';
import { GallerySheet } from './gallery/GallerySheet.tsx';
import { DialReadings } from './inputs/DialReadings.tsx';
import { EarlierLooks } from './inputs/EarlierLooks.tsx';
import { FittedShims } from './inputs/FittedShims.tsx';
import { LookKind } from './inputs/LookKind.tsx';
import styles from './match.module.css';
import { MarkNumbers } from './observe/MarkNumbers.tsx';
import { MarkPainter } from './observe/MarkPainter.tsx';
import { ToolBar } from './observe/ToolBar.tsx';

import type { BrushSize, Tool } from './observe/tools.ts';
import { Orientation } from './orient/Orientation.tsx';
import { PhotoSheet } from './photo/PhotoSheet.tsx';
import { PhotoUnderlay } from './photo/PhotoUnderlay.tsx';
import { photoOf, usePhotos } from './photo/photos.ts';
import { TrialsKept } from './trials/TrialsKept.tsx';

addTexts(match);
addTexts(matchAnswer);
addTexts(trials);
keepLooks();
openTrials();
followTrials(window);
followLook();

const ANSWER_ID = 'match-answer';

/** Work area Match: what is seen on the left, what it means on the right. */
export function MatchArea() {
  const t = useText();
  const axleId = useSetup((state) => state.committed.axleId);
  const shown = useMesh((state) => state.shown);
  const looks = useLook((state) => state.looks);
  const wet = useLook((state) => state.wet);
  const compound = usePreferences((state) => state.compound ?? 'yellow');
  const [tool, setTool] = useState<Tool>('brush');
  const [size, setSize] = useState<BrushSize>('middle');
  const [picking, setPicking] = useState(false);
  const [photographed, setPhotographed] = useState<FlankName | null>(null);
  const photos = usePhotos((state) => state.photos);

  const look = lookAt(looks, axleId);
  const marks = { drive: wet.drive ?? look.drive, coast: wet.coast ?? look.coast };
  const { preview } = useLook.getState();
  const commit = useCallback(() => useLook.getState().commit(axleId), [axleId]);
  const answered = useAnswer((state) => state.answered);
  const nearest =
    answered?.look.axleId === axleId && answered.answer.advice.kind !== 'refused'
      ? answered.answer.nearest
      : null;
  const overlayOf = (flank: FlankName) =>
    nearest === null
      ? undefined
      : (frame: MapFrame) => <NearestLayer frame={frame} flank={flank} nearest={nearest} />;
  const underlayOf = (flank: FlankName) => {
    const photo = photoOf(photos, axleId, flank);
    return photo === null ? undefined : (frame: MapFrame) => <PhotoUnderlay frame={frame} photo={photo} />;
  };
  const previewOf = (flank: FlankName) => (mark: PaintedMark) => preview(flank, mark);

  return (
    <main className={styles.work}>
      <h2 className="visually-hidden">{t('match.title')}</h2>
      <section className={styles.observe} id="flank-maps" aria-label={t('match.paint.title')} tabIndex={-1}>
        <ToolBar
          tool={tool}
          size={size}
          onTool={setTool}
          onSize={setSize}
          onPick={() => setPicking(true)}
          onClear={() => useLook.getState().clear(axleId)}
        />
        {shown !== null &&
          shown.axleId === axleId &&
          FLANK_ORDER.map((flank) => (
            <MarkPainter
              key={flank}
              flank={flank}
              outline={shown.loaded.outline}
              hand={axleOf(axleId).axle.hand}
              compoundColour={COMPOUND_COLOURS[compound]}
              mark={marks[flank]}
              tool={tool}
              size={size}
              onPreview={previewOf(flank)}
              onCommit={commit}
              underlay={underlayOf(flank)}
              overlay={overlayOf(flank)}
              onPhoto={() => setPhotographed(flank)}
            />
          ))}
        {photographed !== null && shown !== null && (
          <PhotoSheet
            flank={photographed}
            outline={shown.loaded.outline}
            hand={axleOf(axleId).axle.hand}
            photo={photoOf(photos, axleId, photographed)}
            open
            onOpenChange={() => setPhotographed(null)}
            onPhoto={(photo) => usePhotos.getState().put(axleId, photographed, photo)}
          />
        )}
        {nearest !== null && <p className={styles.legend}>{t('match.answer.nearest.shown')}</p>}
        {shown !== null && shown.axleId === axleId && (
          <>
            <Orientation outline={shown.loaded.outline} hand={axleOf(axleId).axle.hand} />
            <GallerySheet axleId={axleId} loaded={shown.loaded} open={picking} onOpenChange={setPicking} />
          </>
        )}
        <MarkNumbers marks={marks} onPreview={preview} onCommit={commit} />
      </section>
      <section className={styles.side} id="controls" aria-label={t('match.side')} tabIndex={-1}>
        <AnswerPanel id={ANSWER_ID} look={look} />
        <FittedShims look={look} />
        <EarlierLooks look={look} />
        <TrialsKept key={axleId} axleId={axleId} />
        <DialReadings look={look} />
        <LookKind look={look} />
      </section>
      <AnswerLine answerId={ANSWER_ID} />
    </main>
  );
}
