import { useEffect, useRef, useState } from 'react';
import type { FlankProjection } from '../../../flank/flankGeometry.ts';
import { useText } from '../../../text/useText.ts';
import { drawStraightened } from './drawStraightened.ts';
import styles from './photo.module.css';
import type { Photo } from './photos.ts';

const STRAIGHT_WIDTH = 720;

/** How the tooth will lie under the paint. */
export function Straightened({
  photo,
  projection,
}: {
  readonly photo: Photo;
  readonly projection: FlankProjection;
}) {
  const t = useText();
  const canvas = useRef<HTMLCanvasElement>(null);
  const [drawn, setDrawn] = useState(true);
  const { bounds } = projection;
  const height = Math.round((STRAIGHT_WIDTH * bounds.height) / bounds.width);
  useEffect(() => {
    if (canvas.current !== null) setDrawn(drawStraightened(photo, projection, canvas.current));
  }, [photo, projection]);
  return (
    <figure className={styles.straightened}>
      <figcaption>{t(drawn ? 'match.photo.straightened' : 'match.photo.crossed')}</figcaption>
      <div aria-hidden="true">
        <canvas ref={canvas} width={STRAIGHT_WIDTH} height={height} />
      </div>
      <p className={styles.ends} aria-hidden="true">
        <span>{t(projection.heelOnRight ? 'flank.edge.toe' : 'flank.edge.heel')}</span>
        <span>{t(projection.heelOnRight ? 'flank.edge.heel' : 'flank.edge.toe')}</span>
      </p>
    </figure>
  );
}
