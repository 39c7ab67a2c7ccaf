import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { FlankName } from '../../sim/gearset/definition.ts';
import type { StageHome } from './camera/homes.ts';
import type { RollWheelHandle } from './controls/RollWheel.tsx';
import { SPEEDS, type Speed } from './controls/StageToolbar.tsx';
import type { StageDriver } from './driver.ts';

/** How solid the pinion stays when it is seen through. */
const GLASS = 0.22;

/**
 * What the toolbar sets, for one stage or for several that go together. The first driver rolls; whoever puts several
 * together lets the others follow it.
 */
export function useStageControls(
  drivers: readonly StageDriver[],
  homeAsked: StageHome,
  onHome: ((home: StageHome) => void) | undefined,
) {
  const [first] = drivers;
  const wheel = useRef<RollWheelHandle>(null);
  const [home, setHome] = useState<StageHome>(homeAsked);
  const [playing, setPlaying] = useState(false);
  const [speed, setSpeed] = useState<Speed>('middle');
  const [touching, setTouching] = useState<FlankName>('drive');
  // whether the pinion is seen through, kept apart for the two homes that show it
  const [glass, setGlass] = useState({ whole: false, mesh: true });
  const [labels, setLabels] = useState(true);

  const report = useRef(onHome);
  useEffect(() => {
    report.current = onHome;
  });

  const goHome = useCallback(
    (to: StageHome) => {
      for (const driver of drivers) driver.goHome(to);
      setHome(to);
      report.current?.(to);
    },
    [drivers],
  );
  const asked = useRef(homeAsked);
  useEffect(() => {
    if (asked.current === homeAsked) return;
    asked.current = homeAsked;
    goHome(homeAsked);
  }, [homeAsked, goHome]);

  useEffect(() => first.setPlaying(playing), [first, playing]);
  useEffect(() => {
    first.speed = SPEEDS[speed];
  }, [first, speed]);
  useEffect(() => {
    for (const driver of drivers) {
      driver.scene.setTouching(touching);
      driver.wake();
    }
  }, [drivers, touching]);
  useEffect(() => {
    for (const driver of drivers) {
      driver.setPinionSolidity(glass.whole ? GLASS : 1, glass.mesh ? GLASS : 1);
    }
  }, [drivers, glass]);

  const turn = useCallback(
    (by: number) => {
      setPlaying(false);
      first.setRingAngle(first.ringAngle + by);
    },
    [first],
  );
  const seeThrough = useCallback(
    (seen: boolean) => setGlass((before) => ({ ...before, [home]: seen })),
    [home],
  );
  const togglePlaying = useCallback(() => setPlaying((before) => !before), []);
  const backHome = useCallback(() => goHome(first.home), [first, goHome]);
  const showRoll = useCallback(
    (ringAngle: number) => wheel.current?.show(ringAngle, first.toothInMesh),
    [first],
  );

  const toolbar = useMemo(
    () => ({
      home,
      onHome: goHome,
      playing,
      onPlay: setPlaying,
      speed,
      onSpeed: setSpeed,
      touching,
      onTouching: setTouching,
      glass: home === 'whole' || home === 'mesh' ? glass[home] : null,
      onGlass: seeThrough,
      labels,
      onLabels: setLabels,
      wheel,
      onTurn: turn,
    }),
    [home, goHome, playing, speed, touching, glass, seeThrough, labels, turn],
  );
  return { home, labels, toolbar, togglePlaying, backHome, showRoll };
}
