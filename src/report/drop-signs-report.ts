import { type DropSign, dropSignUnits } from '../shifts/drops/drop-candidate.ts';
import type { WeighedSign } from '../shifts/drops/weigh-candidate.ts';
import { percentMore } from './percent-more.ts';
import type { DropSignReport } from './ride-report-schema.ts';
import { roundOrNull, roundTo } from './round-to.ts';

type EngineUnit = (typeof dropSignUnits)[DropSign];

/** The unit that a reader gets for the engine's own; null where there is nothing to measure. */
const unitShown = {
  'log-share': '%',
  times: '%',
  s: 's',
  W: 'W',
  records: 'records',
  shifts: 'shifts',
  odds: 'odds',
  'm/s': 'm/s',
  'm/s²': 'm/s²',
  none: null,
} as const satisfies Record<EngineUnit, DropSignReport['unit']>;

/** The signs of a lost chain for the report: how much faster in percent, numbers rounded, null for what has no end or no measure. */
export const dropSignsReport = (signs: readonly WeighedSign[]): DropSignReport[] =>
  signs.map(({ sign, value, logOdds }) => {
    const unit = dropSignUnits[sign];
    return {
      sign,
      value: roundOrNull(shown(value, unit), 1),
      unit: unitShown[unit],
      logOdds: roundTo(logOdds, 2),
    };
  });

function shown(value: number, unit: EngineUnit): number {
  if (unit === 'log-share') return percentMore(value);
  return unit === 'times' ? 100 * (value - 1) : value;
}
