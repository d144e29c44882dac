import { hasValues, type RideTrack } from './ride-track.ts';

/** Less than this cannot be seen on the timeline, s. */
const SEEN_LAG_S = 0.25;

/** What the shading means, and how the chain's line lies against the columns below it. Empty where there is no line to compare. */
export function timelineCaption({ commanded, chain, sensorLagS }: RideTrack): string {
  if (!hasValues(commanded) || !hasValues(chain)) return '';
  const shading = 'Shaded, seen close: the chain on another cog than the one asked for.';
  if (sensorLagS === null || Math.abs(sensorLagS) < SEEN_LAG_S) return shading;
  const way = sensorLagS > 0 ? ['after', 'earlier'] : ['before', 'later'];
  const size = Math.abs(sensorLagS).toFixed(1);
  return `${shading} Speed and cadence show a shift ${size} s ${way[0]} it: the chain’s line is drawn that much ${way[1]}.`;
}
