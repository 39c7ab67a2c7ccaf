import type { KnownAxle } from '../../state/axles.ts';
import type { Translate } from '../../text/translate.ts';

/** The axle in a few words, under its name. */
export function factsOf({ axle, key }: KnownAxle, t: Translate): string {
  const { pinionTeeth, ringTeeth, cut } = axle.gearset;
  const facts: string[] = [];
  if (key !== null) facts.push(t('explore.axle.own'));
  if (axle.fictional) facts.push(t('explore.axle.fictional'));
  facts.push(
    t('explore.axle.ratio', { pinion: pinionTeeth, ring: ringTeeth }),
    t(`explore.axle.${cut.method}`),
  );
  if (axle.hand === 'reverse-cut') facts.push(t('explore.axle.reverse-cut'));
  return facts.join(' · ');
}
