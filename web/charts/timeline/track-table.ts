import type { ChartTable } from '../chart-plan.ts';
import type { RideTrack } from './ride-track.ts';

/** The ride's columns as a table, one row a record. */
export function trackTable(track: RideTrack): ChartTable {
  const value = (number: number): number | null => (Number.isNaN(number) ? null : Math.round(number * 100) / 100);
  const teeth = (cog: number): number | null => (Number.isNaN(cog) ? null : track.cassette[cog]);
  return {
    columns: [
      'time, s',
      'cog asked for, teeth',
      'cog the chain was on, teeth',
      'speed, km/h',
      'cadence, rpm',
      'power, W',
    ],
    rows: Array.from(track.timeS, (timeS, i) => [
      timeS,
      teeth(track.commanded.values[i]),
      teeth(track.chain.values[i]),
      value(track.speedKmh.values[i]),
      value(track.cadenceRpm.values[i]),
      value(track.powerW.values[i]),
    ]),
  };
}
