import { existsSync, readFileSync } from 'node:fs';
import { chooseBike } from '../../src/analyse.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { partOfRide } from '../gear-trace/part-of-ride.ts';
import { ladderPlan } from './ladder-plan.ts';
import { type LadderScore, scoreLadder } from './score-ladder.ts';

const folder = new URL('../../../shared/real-rides/', import.meta.url);
const real = ['gears-cadence-power-20h.fit', 'gears-cadence-wheel-sensor.fit'];
const LONG_S = 20_000;
const PART_S = 7200;
/** Upper ends of the bins in which guesses are counted, by the certainty that each was given. */
const BINS = [0.15, 0.3, 0.45, 1];

interface Scored extends LadderScore {
  readonly group: string;
  readonly ride: string;
}

/** How often the drivetrain is guessed right from the ladder of ratios alone, in simulated rides and in the real ones that are there. */
export function ladderTable({ seed, rides, say }: { seed: number; rides: number; say: (step: string) => void }) {
  const scored = [...simulated(seed, rides, say), ...realParts(say)];
  const groups = [...new Set(scored.map(({ group }) => group))];
  const share = (some: readonly Scored[], is: (one: Scored) => boolean): string =>
    `${some.filter(is).length} of ${some.length}`;
  const lines = groups.map((group) => {
    const of = scored.filter((one) => one.group === group);
    return `  ${group.padEnd(30)} rings ${share(of, (one) => one.ringsRight).padEnd(10)} all, up to a scale ${share(of, (one) => one.right)}`;
  });
  const bins = BINS.map((top, i) => {
    const from = BINS[i - 1] ?? 0;
    const of = scored.filter(({ certainty }) => certainty > from && certainty <= top);
    return `  certainty ${from} to ${top}`.padEnd(33) + share(of, (one) => one.right);
  });
  const each = scored.map(
    ({ ride, guess, certainty, right }) =>
      `  ${ride.padEnd(36)} ${right ? 'right' : '-    '} ${certainty.toFixed(2)} ${guess}`,
  );
  const text = ['Drivetrain guessed without gear records', ...lines, 'Right, by certainty', ...bins].join('\n');
  return { text, each: each.join('\n'), figures: scored };
}

function* simulated(seed: number, rides: number, say: (step: string) => void): Generator<Scored> {
  for (const options of ladderPlan(rides, seed)) {
    const ride = `${options.bike.name}, ${options.speedSource}, ${(options.durationS ?? 0) / 3600} h`;
    say(ride);
    const [{ log }] = simulateRides(options);
    const group = `${options.bike.chainrings.length === 1 ? 'one ring' : 'two rings'}, ${options.speedSource}`;
    yield { group, ride, ...scoreLadder(log, options.bike) };
  }
}

/** The real rides with gear records and cadence, the long one in parts of two hours too. */
function* realParts(say: (step: string) => void): Generator<Scored> {
  for (const name of real.filter((file) => existsSync(new URL(file, folder)))) {
    const log = readRideLog(name, readFileSync(new URL(name, folder)));
    const { bike } = chooseBike([log], null);
    say(name);
    yield { group: 'real rides', ride: name, ...scoreLadder(log, bike) };
    for (const [i, part] of partsOf(log).entries())
      yield { group: 'real rides, parts of two hours', ride: `${name}, part ${i + 1}`, ...scoreLadder(part, bike) };
  }
}

function partsOf(log: RideLog): RideLog[] {
  const endS = log.timeS.at(-1) ?? 0;
  if (endS < LONG_S) return [];
  return Array.from({ length: Math.floor(endS / PART_S) }, (_, i) => partOfRide(log, i * PART_S, (i + 1) * PART_S));
}
