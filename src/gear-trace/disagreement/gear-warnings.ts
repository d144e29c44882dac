import type { Bike } from '../../drivetrain/bike.ts';
import { bikeRolloutMm } from '../../drivetrain/bike-rollout.ts';
import type { Warning } from '../../errors/warning.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { anotherBike, moreGears, showsItsCogs } from '../belonging/another-bike.ts';
import { cogMissingWarning } from '../belonging/cog-missing.ts';
import { type RecordedPart, recordedGears } from '../commands/recorded-gears.ts';
import type { MeasuredTeeth } from '../levels/measure-teeth.ts';
import { rolloutWarning } from './rollout-warning.ts';

/** Code of the warning that a ride shows other teeth than the bike has. */
export const teethDiffer = 'teeth-differ';
/** Code of the warning that its records name teeth that the bike does not have. */
export const recordedTeethDiffer = 'recorded-teeth-differ';

/** What a ride itself shows of teeth and wheel. */
export interface ShownByRide {
  readonly measured: MeasuredTeeth;
  /** NaN where it cannot be measured. */
  readonly rolloutMm: number;
  /** Whether the speed drifted for a while. */
  readonly drifts: boolean;
}

/** Says where the records, the bike file and the ride disagree about teeth or rollout. */
export function gearWarnings(log: RideLog, bike: Bike, { measured, rolloutMm, drifts }: ShownByRide): Warning[] {
  const another = anotherBike(log, bike, measured);
  // a rollout by the teeth of a bike that was not ridden says nothing of wheel or unit; slips of the recorder leave it as it is
  const notRidden = another !== null && (another.code === moreGears || !showsItsCogs(bike, measured));
  const rollout = notRidden ? null : rolloutWarning(rolloutMm, bikeRolloutMm(bike), log.format !== 'fit');
  // teeth are told by the rollout: where that is another one, teeth on which records and bike agree are not in doubt too;
  // nor are those of a bike that was not ridden
  const doubtTeeth = !another && !(rollout && namesItsTeeth(log, bike));
  return [
    rollout,
    doubtTeeth ? teethWarning(bike, rollout ? withoutSameFault(measured, bike, rolloutMm) : measured, drifts) : null,
    another ?? cogMissingWarning(log, bike) ?? recordsWarning(log, bike),
  ].filter((warning) => warning !== null);
}

/** A ring this near (log) to the one that would account for another rollout is the same disagreement. */
const SAME_FAULT = 0.03;

/** What a ride shows, without rings that are off only as far as its rollout is: ratios do not tell the two apart, and it is said once. */
function withoutSameFault(measured: MeasuredTeeth, bike: Bike, rolloutMm: number): MeasuredTeeth {
  const off = Math.log(rolloutMm / bikeRolloutMm(bike));
  const chainrings = measured.chainrings.map((teeth, i) =>
    teeth !== null && Math.abs(Math.log(teeth / bike.chainrings[i]) - off) < SAME_FAULT ? bike.chainrings[i] : teeth,
  );
  return { ...measured, chainrings };
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

function teethWarning(bike: Bike, measured: MeasuredTeeth, drifts: boolean): Warning | null {
  const rings = differing(bike.chainrings, measured.chainrings);
  const cogs = differing(bike.cassette, measured.cassette);
  const all = [...rings, ...cogs];
  const slight = all.length === 1 && Math.abs(all[0].shown - all[0].written) === 1;
  // a speed that drifts moves one cog by one tooth on its own
  if (all.length === 0 || (slight && drifts)) return null;
  const inWords = (part: string, teeth: readonly OtherTeeth[]): string =>
    `${part} ${teeth.map(({ written, shown }) => `${written} (the ride shows ${shown})`).join(', ')}`;
  const both = [
    ...(rings.length > 0 ? [inWords('chainrings', rings)] : []),
    ...(cogs.length > 0 ? [inWords('cogs', cogs)] : []),
  ];
  return {
    code: teethDiffer,
    message: `By the ride's speed and cadence some teeth are not as written: ${both.join('; ')}.`,
  };
}

/** A size as the bike has it written, and as the ride shows it. */
interface OtherTeeth {
  readonly written: number;
  readonly shown: number;
}

const differing = (written: readonly number[], shown: readonly (number | null)[]): OtherTeeth[] =>
  written.flatMap((teeth, i) => {
    const seen = shown[i];
    return seen === null || seen === undefined || seen === teeth ? [] : [{ written: teeth, shown: seen }];
  });

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
