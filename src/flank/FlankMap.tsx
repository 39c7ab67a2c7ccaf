import { memo, type ReactNode, useMemo } from 'react';
import type { Hand } from '../../sim/assembly/hardware.ts';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { EdgeName, FlankOutline, SolveResult } from '../../sim/worker/protocol.ts';
import { useText } from '../text/useText.ts';
import { compoundTones } from './compoundTones.ts';
import { inMicrometres } from './contourLevels.ts';
import { centreWords, percent } from './describePattern.ts';
import styles from './FlankMap.module.css';
import { type FlankProjection, projectFlank } from './flankGeometry.ts';
import { layOutMap, type MapLayout } from './mapLayout.ts';
import { PatchLayer } from './PatchLayer.tsx';
import { contourLines, keptPatchScene } from './patchScene.ts';
import { ToothLayer } from './ToothLayer.tsx';
import { useMapWidth } from './useMapWidth.ts';

/** What a further layer on a map needs to draw in place. */
export interface MapFrame {
  readonly flank: FlankName;
  readonly projection: FlankProjection;
  readonly layout: MapLayout;
  /** (u, v) → px of the drawing */
  place(u: number, v: number): readonly [x: number, y: number];
  /** transform of a group whose paths are in map mm */
  readonly transform: string;
}

export interface FlankMapProps {
  readonly flank: FlankName;
  readonly outline: FlankOutline;
  readonly hand: Hand;
  /** null until there is a pose to show: the tooth alone is drawn */
  readonly result: SolveResult | null;
  /** #rrggbb of the user's marking compound */
  readonly compoundColour: string;
  /** levels in mm, constant between renders; left out: no lines of separation */
  readonly contourLevels?: readonly number[] | undefined;
  /** text of a contour level, constant between renders; µm when left out */
  readonly formatSeparation?: ((mm: number) => string) | undefined;
  /** stands beside the name instead of the numbers of the mark */
  readonly numbers?: ReactNode;
  /** further layers over the mark, in px of the drawing (SVG); constant between renders */
  readonly children?: ((frame: MapFrame) => ReactNode) | undefined;
  /** controls over the drawing (HTML), placed in its px; constant between renders */
  readonly controls?: ((frame: MapFrame) => ReactNode) | undefined;
}

/** One flank of the ring tooth, developed flat in true proportions, with the mark the compound would show. */
export const FlankMap = memo(function FlankMap({
  flank,
  outline,
  hand,
  result,
  compoundColour,
  contourLevels,
  formatSeparation = inMicrometres,
  numbers,
  children,
  controls,
}: FlankMapProps): ReactNode {
  const t = useText();
  const [plot, width] = useMapWidth();
  const projection = useMemo(() => projectFlank(outline, flank, hand), [outline, flank, hand]);
  const layout = useMemo(() => layOutMap(projection, width), [projection, width]);
  const tones = useMemo(() => compoundTones(compoundColour), [compoundColour]);
  const scene = useMemo(
    () => (result === null ? null : keptPatchScene(result, flank, projection)),
    [result, flank, projection],
  );
  const contours = useMemo(
    () =>
      result === null || contourLevels === undefined
        ? []
        : contourLines(result[flank], result.grid, contourLevels, projection),
    [result, flank, projection, contourLevels],
  );
  const transform = `translate(${layout.originX} ${layout.originY}) scale(${layout.scale})`;
  // the same one from solve to solve, so that a layer is drawn anew only for what it shows
  const frame = useMemo(
    (): MapFrame => ({
      flank,
      projection,
      layout,
      transform,
      place: (u, v) => [
        layout.originX + layout.scale * projection.mapX(u),
        layout.originY + layout.scale * projection.mapY(u, v),
      ],
    }),
    [flank, projection, layout, transform],
  );
  const name = t(`flank.name.${flank}`);
  const report = result?.[flank];
  const edgeLabel = (edge: EdgeName): ReactNode => (
    <EdgeLabel edge={edge} touched={report?.edges.includes(edge) ?? false} />
  );

  return (
    <figure className={styles.map} data-flank={flank} data-heel={projection.heelOnRight ? 'right' : 'left'}>
      <figcaption className={styles.head}>
        <span>
          <span className={styles.name}>{name}</span>{' '}
          <span className={styles.shape}>{t(`flank.shape.${flank}`)}</span>
        </span>
        {numbers !== undefined ? (
          numbers
        ) : report === undefined || report.toeHeel === null ? (
          <span className={styles.numbers}>
            {report === undefined ? t('flank.map.waiting') : t('flank.centre.none')}
          </span>
        ) : (
          <dl className={styles.numbers}>
            <div>
              <dt>{t('flank.centre.name')}</dt>
              <dd>{centreWords(report, t)}</dd>
            </div>
            {report.toeHeel === null ? null : (
              <div>
                <dt>{t('flank.extent.name')}</dt>
                <dd>
                  {t('flank.extent.value', {
                    length: percent(report.length),
                    height: percent(report.height),
                  })}
                </dd>
              </div>
            )}
          </dl>
        )}
      </figcaption>
      <div className={styles.plot} ref={plot}>
        <div className={styles.ends}>{edgeLabel('face')}</div>
        <div className={styles.drawingBox}>
          <svg
            className={styles.drawing}
            viewBox={`0 0 ${layout.width} ${layout.height}`}
            width={layout.width}
            height={layout.height}
            role="img"
            aria-label={t('flank.map.label', { flank: name })}
          >
            <ToothLayer projection={projection} coat={tones.coat} transform={transform} />
            {scene === null ? null : (
              <PatchLayer
                scene={scene}
                contours={contours}
                formatSeparation={formatSeparation}
                tones={tones}
                layout={layout}
                transform={transform}
              />
            )}
            {children?.(frame)}
          </svg>
          {controls?.(frame)}
        </div>
        <div className={styles.ends}>
          {edgeLabel(projection.heelOnRight ? 'toe' : 'heel')}
          {edgeLabel('root')}
          {edgeLabel(projection.heelOnRight ? 'heel' : 'toe')}
        </div>
      </div>
    </figure>
  );
});

function EdgeLabel({ edge, touched }: { readonly edge: EdgeName; readonly touched: boolean }): ReactNode {
  const t = useText();
  const name = t(`flank.edge.${edge}`);
  return (
    <span className={styles.end} data-edge={edge}>
      {touched ? <strong className={styles.touched}>{t('flank.edge.contact', { edge: name })}</strong> : name}
    </span>
  );
}
