import type { LostSpell } from '../../../src/report/charts/lost-spells.ts';
import { rideClock } from '../../words/dates.ts';
import { isLost } from './lost-spells.ts';
import { nearestSample, type RideTrack } from './ride-track.ts';

/** One value under the reading line. */
export interface ReadValue {
  readonly name: string;
  readonly text: string;
}

/** What the ride shows at a moment, value by value. Empty for an empty ride. */
export function readingAt(track: RideTrack, timeS: number, lost: readonly LostSpell[]): readonly ReadValue[] {
  const at = nearestSample(track, timeS);
  if (at < 0) return [];
  const teeth = (cog: number): string => (Number.isNaN(cog) ? 'not known' : String(track.cassette[cog]));
  const number = (value: number, unit: string, digits = 0): string =>
    Number.isNaN(value) ? '–' : `${value.toFixed(digits)} ${unit}`;
  return [
    { name: 'At', text: rideClock(track.timeS[at]) },
    { name: 'Asked for', text: teeth(track.commanded.values[at]) },
    { name: 'Chain on', text: isLost(lost, track.timeS[at]) ? 'no cog: drive lost' : teeth(track.chain.values[at]) },
    ...(track.hasRings ? [{ name: 'Ring', text: Number.isNaN(track.ring[at]) ? '–' : String(track.ring[at]) }] : []),
    { name: 'Speed', text: number(track.speedKmh.values[at], 'km/h', 1) },
    { name: 'Cadence', text: number(track.cadenceRpm.values[at], 'rpm') },
    { name: 'Power', text: number(track.powerW.values[at], 'W') },
  ];
}
