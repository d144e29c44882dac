import type { Bike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import { counted } from '../../numeric/counted.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { type RecordedPart, recordedGears } from '../commands/recorded-gears.ts';
import type { MeasuredTeeth } from '../levels/measure-teeth.ts';
import { belongingLimits } from './belonging-limits.ts';
import { shareOwn } from './share-of-teeth.ts';

/** Code of the warning where the records name other gears than the bike's. */
export const otherCogs = 'another-bike';
/** Code of the warning where they name more gears than the bike's, and not by a few slips. */
export const moreGears = 'more-gears-than-bike';
const limits = belongingLimits.given;

/**
 * Says so where the gear records cannot be the bike's: more positions or sizes than it has, or mostly cogs that it has not. Those may be
 * a wrong setting of the recorder, so they count only where the ride does not show the bike's own teeth.
 *
 * @param measured teeth that the ride shows; null where it shows none
 */
export function anotherBike(
  { gearRecords }: RideLog,
  bike: Bike,
  measured: Pick<MeasuredTeeth, 'cassette'> | null,
): Warning | null {
  const gears = recordedGears(gearRecords);
  const [rear, front] = [recorded(gears.rear), recorded(gears.front)];
  const own = shareOwn(rear.teeth, bike.cassette);
  const tooMany = rear.count > bike.cassette.length || front.count > bike.chainrings.length;
  const mostlyOdd = own < limits.teeth && !showsItsCogs(bike, measured);
  if (!tooMany && !mostlyOdd) return null;
  const named = [inWords('cog', rear.count, rear.teeth), inWords('ring', front.count, front.teeth)].filter(Boolean);
  const { cassette, chainrings } = bike;
  // all that is named is the bike's, and by the positions there are more: then it is likelier a cog that nobody wrote down
  const lacking =
    rear.teeth.length > 0 && own === 1 && front.count <= chainrings.length
      ? Math.max(0, rear.count - cassette.length)
      : 0;
  const advice =
    lacking > 0
      ? `If it is this bike's, ${counted(lacking, 'cog')} ${lacking === 1 ? 'is' : 'are'} missing from its description: write in every cog. Else read it with its own bike, or leave it out.`
      : 'Read it with its own bike, or leave it out.';
  return {
    code: tooMany && (1 - own >= limits.slips || rear.teeth.length === 0) ? moreGears : otherCogs,
    message: `This ride looks like another bike's: its gear records name ${named.join(' and ')}, but the bike "${bike.name}" has ${inWords('cog', cassette.length, cassette)} and ${inWords('ring', chainrings.length, chainrings)}. ${advice}`,
  };
}

function recorded({ teeth, position }: RecordedPart): { count: number; teeth: number[] } {
  const named = namedOften(teeth);
  // positions are sure, whichever way they count; teeth beside them are what someone configured
  return { count: namedOften(position).at(-1) ?? named.length, teeth: named };
}

/** What the records name more often than by a slip, rising. */
function namedOften(values: Uint8Array): number[] {
  const times = new Map<number, number>();
  for (const value of values) if (value > 0) times.set(value, (times.get(value) ?? 0) + 1);
  return [...times.keys()].filter((value) => (times.get(value) as number) >= limits.named).sort((a, b) => a - b);
}

/** Whether the ride shows teeth, most of which are the bike's. */
export function showsItsCogs({ cassette }: Bike, measured: Pick<MeasuredTeeth, 'cassette'> | null): boolean {
  const shown = measured?.cassette.filter((teeth) => teeth !== null) ?? [];
  return shown.length > 0 && shareOwn(shown, cassette) > limits.teeth;
}

/** How many there are by the positions, and which teeth are named: a ride need not use every cog. */
function inWords(part: string, count: number, teeth: readonly number[]): string {
  if (count === 0) return '';
  const named = teeth.length === count ? '' : 'teeth named: ';
  return `${counted(count, part)}${teeth.length > 0 ? ` (${named}${teeth.join('-')})` : ''}`;
}
