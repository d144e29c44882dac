import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { anotherBike } from '../belonging/another-bike.ts';
import { type RecordedPart, recordedGears } from '../commands/recorded-gears.ts';
import type { MeasuredTeeth } from '../levels/measure-teeth.ts';
import { rolloutWarning } from './rollout-warning.ts';

/** Code of the warning that a ride shows other teeth than the bike has. */
export const teethDiffer = 'teeth-differ';
/** Code of the warning that its records name teeth that the bike does not have. */
export const recordedTeethDiffer = 'recorded-teeth-differ';

/** Says where the records, the bike file and the ride disagree about teeth or rollout. */
export function gearWarnings(
  log: RideLog,
  bike: Bike,
  measured: MeasuredTeeth,
  rolloutMm: number,
  writtenMm: number,
): Warning[] {
  const rollout = rolloutWarning(rolloutMm, writtenMm, log.format !== 'fit');
  const another = anotherBike(log, bike, measured);
  // teeth are told by the rollout: where that is another one, teeth on which records and bike agree are not in doubt too;
  // nor are those of a bike that was not ridden
  const doubtTeeth = !another && !(rollout && namesItsTeeth(log, bike));
  return [rollout, doubtTeeth ? teethWarning(bike, measured) : null, another ?? recordsWarning(log, bike)].filter(
    (warning) => warning !== null,
  );
}

/** True where the records name gears, and none but the bike's. */
function namesItsTeeth({ gearRecords }: RideLog, { cassette, chainrings }: Bike): boolean {
  const { rear, front } = recordedGears(gearRecords);
  return (
    rear.sizes.length > 0 &&
    rear.sizes.every((teeth) => cassette.includes(teeth)) &&
    front.sizes.every((teeth) => chainrings.includes(teeth))
  );
}

function teethWarning(bike: Bike, measured: MeasuredTeeth): Warning | null {
  const differs = (written: readonly number[], shown: readonly (number | null)[]): string =>
    written
      .flatMap((teeth, i) => (shown[i] !== null && shown[i] !== teeth ? [`${teeth} (the ride shows ${shown[i]})`] : []))
      .join(', ');
  const rings = differs(bike.chainrings, measured.chainrings);
  const cogs = differs(bike.cassette, measured.cassette);
  const both = [rings && `chainrings ${rings}`, cogs && `cogs ${cogs}`].filter(Boolean);
  if (both.length === 0) return null;
  return {
    code: teethDiffer,
    message: `By the ride's speed and cadence some teeth are not as written: ${both.join('; ')}.`,
  };
}

function recordsWarning({ gearRecords }: RideLog, bike: Bike): Warning | null {
  const odd = (what: string, { sizes, positions }: RecordedPart, own: readonly number[]): string => {
    const unlisted = sizes.filter((teeth) => !own.includes(teeth));
    if (unlisted.length === 0) return '';
    return `${what} ${unlisted.join(', ')}, read by their ${positions.length > 0 ? 'position' : 'order'}`;
  };
  const { rear, front } = recordedGears(gearRecords);
  const both = [odd('cogs', rear, bike.cassette), odd('chainrings', front, bike.chainrings)].filter(Boolean);
  if (both.length === 0) return null;
  return {
    code: recordedTeethDiffer,
    message: `The gear records name teeth that the bike does not have: ${both.join('; ')}.`,
  };
}
