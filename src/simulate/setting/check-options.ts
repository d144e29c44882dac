import type { Bike } from '../../drivetrain/bike.ts';
import { faultCauses } from './fault-causes.ts';
import { SimulationOptionError } from './option-error.ts';
import type { SimulationOptions } from './simulation-options.ts';

/** @throws SimulationOptionError for an unknown cause, or a seed that is no whole number from 0. */
export function checkCauseAndSeed({ cause, seed }: Pick<SimulationOptions, 'cause' | 'seed'>): void {
  if (!faultCauses.includes(cause)) throw new SimulationOptionError('cause', cause, faultCauses.join(', '));
  if (!Number.isSafeInteger(seed) || seed < 0) throw new SimulationOptionError('seed', seed, 'a whole number from 0');
}

/** @throws SimulationOptionError for a cause that this bike cannot have. */
export function checkCauseFitsBike(cause: SimulationOptions['cause'], bike: Bike): void {
  if (cause === 'cable-friction' && bike.actuation === 'electronic')
    throw new SimulationOptionError('cause', cause, 'a bike with a cable; this one is electronic');
}

/** @throws SimulationOptionError for a size, length or number of rides out of its range. */
export function checkSizes({ severity, durationS, rides }: Record<'severity' | 'durationS' | 'rides', number>): void {
  if (!(severity >= 0 && severity <= 1)) throw new SimulationOptionError('severity', severity, '0 to 1');
  if (!(durationS >= 60 && durationS <= 86_400)) throw new SimulationOptionError('durationS', durationS, '60 to 86400');
  if (!Number.isInteger(rides) || rides < 1 || rides > 100) throw new SimulationOptionError('rides', rides, '1 to 100');
}

/** @throws SimulationOptionError for a word that is none of its option's, or a start that is no time. */
export function checkWords(options: SimulationOptions): void {
  oneOf('terrain', options.terrain, ['flat', 'rolling', 'hilly', 'off-road', 'town', 'mixed']);
  oneOf('speedSource', options.speedSource, ['wheel', 'satellite']);
  oneOf('gearRecords', options.gearRecords, ['both', 'rear-only', 'none']);
  oneOf('gearTimes', options.gearTimes, ['whole-seconds', 'exact']);
  oneOf('recording', options.recording, ['every-second', 'uneven']);
  oneOf('rider', options.rider, ['smooth', 'ordinary', 'forceful']);
  for (const format of options.formats ?? []) oneOf('formats', format, ['fit', 'csv', 'tcx']);
  if (options.start !== undefined && Number.isNaN(Date.parse(options.start)))
    throw new SimulationOptionError('start', options.start, 'an ISO 8601 time');
}

function oneOf(option: string, found: unknown, allowed: readonly string[]): void {
  if (found !== undefined && !allowed.includes(found as string))
    throw new SimulationOptionError(option, found, allowed.join(', '));
}
