import { moreGears, otherCogs } from '../../src/gear-trace/belonging/another-bike.ts';
import { cogMissing } from '../../src/gear-trace/belonging/cog-missing.ts';
import { ridesApartCode } from '../../src/gear-trace/belonging/rides-apart.ts';
import { gearRecordsLate } from '../../src/gear-trace/commands/late-records.ts';
import { cadenceMissing } from '../../src/gear-trace/disagreement/cadence-gaps.ts';
import { gearRecordsMissing } from '../../src/gear-trace/disagreement/missing-records.ts';
import { otherSteps } from '../../src/gear-trace/disagreement/other-steps.ts';
import { speedUnsteady } from '../../src/gear-trace/unsteady/unsteady-warning.ts';
import { rideToComeCode } from '../../src/ride-log/still-to-come.ts';
import { virtualSpeed } from '../../src/ride-log/virtual-speed.ts';
import type { RideReport } from '../api/answers.ts';
import { noTimeZone } from './time-zone.ts';

/** Codes of remarks that put a ride in doubt: they change what it can tell, or whether it is this bike's at all. */
export const doubting: ReadonlySet<string> = new Set([
  moreGears,
  otherCogs,
  'another-cassette',
  cadenceMissing,
  cogMissing,
  'duplicate',
  'few-sound-readings',
  gearRecordsLate,
  gearRecordsMissing,
  'no-cadence',
  'no-gear-bands',
  'no-speed',
  noTimeZone,
  'one-cog-off',
  otherSteps,
  'overlapping-rides',
  'recorded-teeth-differ',
  rideToComeCode,
  ridesApartCode,
  'rollout-differs',
  'speed-unit-doubtful',
  speedUnsteady,
  'teeth-differ',
  'too-little-pedalling',
  'two-cogs-one-count',
  virtualSpeed,
]);

/** The remarks on a ride that put it in doubt; the others tell how its file was read. */
export const rideDoubts = (warnings: RideReport['warnings']): RideReport['warnings'] =>
  warnings.filter(({ code }) => doubting.has(code));
