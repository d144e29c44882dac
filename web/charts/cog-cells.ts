import type { CogReport } from '../api/answers.ts';
import type { Cell } from './chart-plan.ts';

/** What a table of cogs needs of a cog's tally. */
export type CogRow = Pick<
  CogReport,
  | 'teeth'
  | 'direction'
  | 'shifts'
  | 'late'
  | 'missed'
  | 'overshot'
  | 'ghostShifts'
  | 'chainDrops'
  | 'sureChainDrops'
  | 'troubleRate'
  | 'low'
  | 'high'
>;

/** The columns of a table of cogs. */
export const cogColumns = [
  'teeth',
  'direction',
  'judged shifts',
  'late',
  'missed',
  'overshot',
  'ghost shifts',
  'trouble rate',
  'low (95 %)',
  'high (95 %)',
  'chains lost past it',
  'of them sure',
];

/** A cog's row under these columns; where lost chains are not counted by cog, their cell is empty. */
export const cogCells = (cog: CogRow): Cell[] => [
  cog.teeth,
  cog.direction,
  cog.shifts,
  cog.late,
  cog.missed,
  cog.overshot,
  cog.ghostShifts,
  cog.troubleRate,
  cog.shifts > 0 ? cog.low : null,
  cog.shifts > 0 ? cog.high : null,
  cog.chainDrops ?? null,
  cog.sureChainDrops ?? cog.chainDrops ?? null,
];
