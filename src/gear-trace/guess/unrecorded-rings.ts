import { sum } from 'd3-array';
import { type Bike, possibleBike } from '../../drivetrain/bike.ts';
import type { Warning } from '../../errors/warning.ts';
import { counted } from '../../numeric/counted.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { recordedTeeth } from '../commands/recorded-gears.ts';
import { cogRungs } from './cog-rungs.ts';
import { ringLevels } from './ring-levels.ts';
import { ringsOfLevels } from './rings-of-levels.ts';

/** A bike whose gear records name cogs and no ring, with the rings on which its rides were pedalled. */
export interface UnrecordedRings {
  readonly bike: Bike;
  /** How likely its number of rings is right, 0 to 1. */
  readonly likelihood: number;
  /** True where the ratios do not show for sure how many rings there are: changes of ring then read as trouble. */
  readonly unclear: boolean;
}

/** Below this likelihood the number of rings is unclear (as `ladderWords` has it). */
const SURE = 0.8;
/** So is it where more of the settled pedalling than this lies in no gear of the rings found. */
const MOST_ASTRAY = 0.05;

/**
 * Works out the rings that no record names from the ratios at which the recorded cogs were pedalled. One ring is left as it is: its size and
 * the rollout are one number.
 *
 * @param logs rides whose records name no ring
 * @param recorded the bike read off the records, with one ring
 */
export function unrecordedRings(logs: readonly RideLog[], recorded: Bike): UnrecordedRings {
  const rungs = cogRungs(
    logs.filter(({ speedSource }) => speedSource !== 'computed'),
    recorded,
  );
  // no ratios: no shift is judged by them either
  if (rungs.length === 0) return { bike: recorded, likelihood: 1, unclear: false };
  const shown = ringLevels(rungs, recorded.cassette);
  if (!shown) return { bike: recorded, likelihood: 0, unclear: true };
  const { levels, likelihood, astrayS } = shown;
  const clear = likelihood >= SURE && astrayS <= MOST_ASTRAY * sum(rungs, ({ seconds }) => seconds);
  if (levels.length === 1) return { bike: recorded, likelihood, unclear: !clear };
  const rings = ringsOfLevels(levels);
  const bike = rings && possibleBike({ ...recorded, chainrings: [...rings.chainrings], rolloutMm: rings.rolloutMm });
  return bike ? { bike, likelihood, unclear: !clear } : { bike: recorded, likelihood, unclear: true };
}

/** On how many rings the rides of a bike were pedalled for sure; 0 where records name their rings, name no cogs, or the ratios do not show it. */
export function ringsPedalled(logs: readonly RideLog[], bike: Bike): number {
  const named = logs.map(({ gearRecords }) => recordedTeeth(gearRecords));
  if (named.some(({ front }) => front.length > 0) || named.every(({ rear }) => rear.length === 0)) return 0;
  const rings = unrecordedRings(logs, { ...bike, chainrings: [bike.chainrings[0]] });
  return rings.unclear ? 0 : rings.bike.chainrings.length;
}

/**
 * What is said of rings that no record names, with a space before.
 *
 * @param measured whether any ride shows the ratios of the bike: only they know rings up to a scale
 */
export function assumedRings({ chainrings }: Bike, measured: boolean): string {
  const rings = chainrings.join('/');
  if (chainrings.length === 1 && !measured)
    return ` No front teeth are recorded: a ring of ${rings} is assumed, and nothing in the rides shows its size. Write the ring into the bike.`;
  if (chainrings.length === 1)
    return ` No front teeth are recorded: a ring of ${rings} is assumed, and ring and rollout are known up to a common scale only. Write the ring into the bike.`;
  return ` No front teeth are recorded: the ratios show ${counted(chainrings.length, 'ring')}, taken for ${rings}; rings and rollout are known up to a common scale only, and a ring that was not used does not show. Write the rings into the bike.`;
}

/** Code of the note on a bike whose number of rings no record names and no ratio shows for sure. */
export const ringsUnclearCode = 'rings-unclear';

/** True where the notes of a bike say so: then no verdict is drawn from its shifts. */
export const ringsUnclear = (notes: readonly Pick<Warning, 'code'>[]): boolean =>
  notes.some(({ code }) => code === ringsUnclearCode);

/** The note itself. */
export const ringsUnclearNote: Warning = {
  code: ringsUnclearCode,
  message:
    'No front teeth are recorded, and the ratios do not show for sure on how many rings the bike was pedalled. A change of ring would read as a shift gone wrong, so nothing is concluded from the shifts. Describe the bike, with all its rings.',
};
