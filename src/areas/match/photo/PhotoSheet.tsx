import { useMemo, useState } from 'react';
import type { Hand } from '../../../../sim/assembly/hardware.ts';
import type { FlankName } from '../../../../sim/gearset/definition.ts';
import type { FlankOutline } from '../../../../sim/worker/protocol.ts';
import { Button } from '../../../app/ui/controls.tsx';
import { Sheet } from '../../../app/ui/Sheet.tsx';
import { projectFlank } from '../../../flank/flankGeometry.ts';
import { useText } from '../../../text/useText.ts';
import styles from './photo.module.css';
import { mirrorPhoto, type Photo, readPhoto, turnPhoto } from './photos.ts';
import { Straightened } from './Straightened.tsx';
import { ToothMarks } from './ToothMarks.tsx';

export interface PhotoSheetProps {
  readonly flank: FlankName;
  readonly outline: FlankOutline;
  readonly hand: Hand;
  readonly photo: Photo | null;
  readonly open: boolean;
  readonly onOpenChange: (open: boolean) => void;
  readonly onPhoto: (photo: Photo | null) => void;
}

/** Chooses or takes a photo of one flank, turns it and marks where the tooth lies in it. */
export function PhotoSheet({ flank, outline, hand, photo, open, onOpenChange, onPhoto }: PhotoSheetProps) {
  const t = useText();
  const projection = useMemo(() => projectFlank(outline, flank, hand), [outline, flank, hand]);
  const [problem, setProblem] = useState<string | null>(null);
  const take = async (files: FileList | null) => {
    const file = files?.[0];
    if (file === undefined) return;
    try {
      onPhoto(await readPhoto(file, projection.heelOnRight));
      setProblem(null);
    } catch {
      setProblem(t('match.photo.unreadable', { name: file.name }));
    }
  };
  return (
    <Sheet
      title={t('match.photo.title', { flank: t(`flank.name.${flank}`) })}
      wide
      open={open}
      onOpenChange={onOpenChange}
    >
      <div className={styles.tools}>
        <FileButton text={t('match.photo.choose')} onFiles={take} />
        <FileButton text={t('match.photo.take')} camera onFiles={take} />
        {photo !== null && (
          <>
            <Button quiet onPress={() => onPhoto(turnPhoto(photo))}>
              {t('match.photo.turn')}
            </Button>
            <Button quiet onPress={() => onPhoto(mirrorPhoto(photo))}>
              {t('match.photo.mirror')}
            </Button>
            <Button quiet onPress={() => onPhoto(null)}>
              {t('match.photo.remove')}
            </Button>
          </>
        )}
      </div>
      {problem !== null && (
        <p className={styles.problem} role="alert">
          {problem}
        </p>
      )}
      <p className={styles.why}>{t(photo === null ? 'match.photo.how' : 'match.photo.points')}</p>
      {photo !== null && (
        <>
          <ToothMarks photo={photo} onPhoto={onPhoto} />
          <Straightened photo={photo} projection={projection} />
          <div className={styles.done}>
            <Button icon="check" onPress={() => onOpenChange(false)}>
              {t('match.photo.done')}
            </Button>
          </div>
        </>
      )}
    </Sheet>
  );
}

function FileButton({
  text,
  camera = false,
  onFiles,
}: {
  readonly text: string;
  readonly camera?: boolean;
  readonly onFiles: (files: FileList | null) => void;
}) {
  return (
    <label className={styles.file}>
      <input
        type="file"
        accept="image/*"
        capture={camera ? 'environment' : undefined}
        onChange={(event) => {
          onFiles(event.target.files);
          // the same file may be chosen again
          event.target.value = '';
        }}
      />
      <span>{text}</span>
    </label>
  );
}
