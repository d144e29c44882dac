import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type AnalysedRide, analyseRide, chooseBike } from '../../src/analyse.ts';
import type { Bike } from '../../src/drivetrain/bike.ts';
import { traceGears } from '../../src/gear-trace/trace-gears.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { matchByTime } from './match-by-time.ts';
import { EVENT_WITHIN_S, GHOST_HELD_OVER_S, SETTLED_AFTER_S, SHIFT_WITHIN_S } from './matching-rules.ts';
import { offGearByPower } from './off-gear-by-power.ts';
import { plantChainDrops } from './planted/plant-chain-drops.ts';
import { plantGhostShifts } from './planted/plant-ghost-shifts.ts';
import { plantMissedShifts } from './planted/plant-missed-shifts.ts';
import { withoutRecords } from './without-records.ts';

const folder = new URL('../../../shared/real-rides/', import.meta.url);
const long = 'gears-cadence-power-20h.fit';
const withGears = [long, 'gears-cadence-wheel-sensor.fit'];
const PLANTED = 60;

/** Found and put in, and what else was reported that the untouched ride does not show. */
interface PlantedFigures {
  readonly found: number;
  readonly putIn: number;
  readonly note: string;
}

/**
 * Figures from real rides: truth put into a healthy ride of 20 h and looked for, trouble reported in it untouched, and the trace
 * without gear records against the trace with them. Real rides lie outside the project: without them the text says so and figures are null.
 */
export function realRidesTable({ seed, say = () => {} }: { seed: number; say?: (step: string) => void }): {
  text: string;
  figures: Record<string, unknown> | null;
} {
  if (!existsSync(new URL(long, folder)))
    return { text: `Real rides: skipped, ${fileURLToPath(folder)} is missing.`, figures: null };
  const log = readRideLog(long, readFileSync(new URL(long, folder)));
  say('the bike');
  const { bike } = chooseBike([log], null);
  say('untouched');
  const asItIs = analyseRide(log, bike);
  const untouched = untouchedFigures(asItIs);
  const offGear = offGearByPower(log, asItIs.trace);
  const plant: [string, () => PlantedFigures][] = [
    ['missed shifts', () => missedFigures(log, bike, seed)],
    ['ghost shifts held over 3 s', () => ghostFigures(log, bike, seed)],
    ['chain drops', () => dropFigures(log, bike, seed)],
  ];
  const found = plant.map(([what, figures]) => {
    say(what);
    return { what, ...figures() };
  });
  say('without gear records');
  const blind = withGears.map((name) => ({ name, ...blindAgreement(name) }));
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const text = [
    `Real ride ${long}, truth put in (seed ${seed})`,
    ...found.map(({ what, found, putIn, note }) =>
      `  ${what.padEnd(30)} ${found} of ${putIn} found (${percent(found / putIn)})${note}`.trimEnd(),
    ),
    'The same ride untouched',
    `  judged shifts                  ${untouched.judged} of ${untouched.shifts}`,
    `  called late, missed, overshot  ${untouched.late}, ${untouched.missed}, ${untouched.overshot}: ${percent(untouched.troubleShare)} (at most 2 %)`,
    `  chain drops                    ${untouched.chainDrops} (0)`,
    `  ghost shifts, over 3 s         ${untouched.ghostShifts}, ${untouched.ghostShiftsHeld} (at most 2)`,
    `  skips                          ${untouched.skips}`,
    `  rings by the ratios            ${untouched.chainrings.join('/')} (recorded 50/34, truly 48/32)`,
    '  settled seconds with the ratio above the gear, by power',
    ...offGear.map(
      ({ fromW, toW, seconds, above }) =>
        `    ${`from ${fromW} ${toW < Number.POSITIVE_INFINITY ? `to ${toW} W` : 'W on'}`.padEnd(29)}${above} of ${seconds}`,
    ),
    'Without gear records, settled seconds in which the trace names the same cog as with them',
    ...blind.map(({ name, right, of }) => `  ${name.padEnd(30)} ${percent(right / of)} of ${of} s`),
  ].join('\n');
  return { text, figures: { planted: found, untouched, offGear, withoutRecords: blind } };
}

function untouchedFigures({ trace, events }: AnalysedRide) {
  const count = (outcome: string): number => events.shifts.filter((shift) => shift.outcome === outcome).length;
  const judged = events.shifts.length - count('unjudged');
  const [late, missed, overshot] = ['late', 'missed', 'overshot'].map(count);
  return {
    shifts: events.shifts.length,
    judged,
    late,
    missed,
    overshot,
    troubleShare: (late + missed + overshot) / judged,
    chainDrops: events.chainDrops.length,
    ghostShifts: events.ghostShifts.length,
    ghostShiftsHeld: events.ghostShifts.filter(({ heldS }) => heldS > GHOST_HELD_OVER_S).length,
    skips: events.skips.length,
    chainrings: trace.measured.chainrings,
    cassette: trace.measured.cassette,
  };
}

function missedFigures(log: RideLog, bike: Bike, seed: number): PlantedFigures {
  const changed = plantMissedShifts(log, PLANTED, seededRandom(seed, 'missed'));
  const { shifts } = analyseRide(changed.log, bike).events;
  const outcomes = (times: number[]): string[] => {
    const partner = matchByTime(
      times,
      shifts.map(({ timeS }) => timeS),
      SHIFT_WITHIN_S,
    );
    return [...partner].map((r) => (r < 0 ? 'nothing' : shifts[r].outcome));
  };
  const out = outcomes(changed.planted.map(({ timeS }) => timeS));
  const back = outcomes(changed.planted.map(({ backS }) => backS));
  const troubled = back.filter(
    (outcome) => outcome === 'late' || outcome === 'missed' || outcome === 'overshot',
  ).length;
  return {
    found: out.filter((outcome) => outcome === 'missed').length,
    putIn: out.length,
    note: `; ${troubled} of the commands back called trouble`,
  };
}

function ghostFigures(log: RideLog, bike: Bike, seed: number): PlantedFigures {
  const changed = plantGhostShifts(log, PLANTED, seededRandom(seed, 'ghosts'));
  const ghosts = analyseRide(changed.log, bike).events.ghostShifts.filter(({ heldS }) => heldS > GHOST_HELD_OVER_S);
  const partner = matchByTime(
    changed.planted.map(({ timeS }) => timeS),
    ghosts.map(({ timeS }) => timeS),
    EVENT_WITHIN_S,
  );
  const found = partner.filter((r) => r >= 0).length;
  return { found, putIn: partner.length, note: `; ${ghosts.length - found} others reported` };
}

function dropFigures(log: RideLog, bike: Bike, seed: number): PlantedFigures {
  const changed = plantChainDrops(log, PLANTED, seededRandom(seed, 'drops'));
  const drops = analyseRide(changed.log, bike).events.chainDrops;
  const partner = matchByTime(
    changed.planted.map(({ timeS }) => timeS),
    drops.map(({ timeS }) => timeS),
    EVENT_WITHIN_S,
  );
  const found = partner.filter((r) => r >= 0).length;
  const sided = changed.planted.flatMap(({ side }, t) =>
    side && partner[t] >= 0 ? [drops[partner[t]].side === side] : [],
  );
  const stopping = changed.planted.filter(({ stops }) => stops).length;
  const foundStopping = changed.planted.filter(({ stops }, t) => stops && partner[t] >= 0).length;
  return {
    found,
    putIn: partner.length,
    note: `; with a halt ${foundStopping} of ${stopping}; right side ${sided.filter(Boolean).length} of ${sided.length}; ${drops.length - found} others reported`,
  };
}

/** Seconds 4 s or more after any gear record and any change of the traced cog, with the cranks driving. */
function blindAgreement(name: string): { right: number; of: number } {
  const log = readRideLog(name, readFileSync(new URL(name, folder)));
  const { bike } = chooseBike([log], null);
  const seeing = traceGears(log, bike);
  const blind = traceGears(withoutRecords(log), bike);
  let right = 0;
  let of = 0;
  let changedS = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < log.timeS.length; i++) {
    if (seeing.cog[i] !== seeing.cog[i - 1]) changedS = log.timeS[i];
    const record = seeing.commands.latest[i];
    const quiet = Math.min(
      log.timeS[i] - changedS,
      log.timeS[i] - (seeing.commands.timeS[record] ?? Number.NEGATIVE_INFINITY),
    );
    if (quiet < SETTLED_AFTER_S || seeing.cog[i] < 0 || !seeing.samples.usable[i] || seeing.driving[i] < 0.5) continue;
    of++;
    if (blind.cog[i] === seeing.cog[i]) right++;
  }
  return { right, of };
}
