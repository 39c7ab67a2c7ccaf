import { MatchArea } from '../areas/match/MatchArea.tsx';

/** Work area Match, loaded when it is opened. */
export function MatchScreen() {
  return <MatchArea />;
}
