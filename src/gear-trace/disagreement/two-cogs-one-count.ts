import { range } from 'd3-array';
import type { Warning } from '../../errors/warning.ts';
import { timesWords } from '../../numeric/times-words.ts';
import type { BikeRide } from '../bike-ride.ts';
import type { GearCommands } from '../commands/gear-commands.ts';
import { recordedGears } from '../commands/recorded-gears.ts';
import { type DecodedGears, SURELY_DRIVING, SURELY_ON_COG } from '../decoding/decode-gears.ts';
import { pedalledSeconds, type TurningCranks } from '../samples/pedalled-seconds.ts';

/** Code of the warning that the records name two neighbouring cogs by one tooth count, and of the shifts that are left unjudged for it. */
export const twoCogsOneCount = 'two-cogs-one-count';

/** Two neighbouring cogs that the records name by one tooth count; indices into the cassette, 0 = smallest. */
export interface CogsOfOneCount {
  /** The cog for which the records' count is taken. */
  readonly named: number;
  /** The one that no record names. */
  readonly unnamed: number;
  /** How often the chain drove on the unnamed one for a while. */
  readonly spells: number;
}

/** From so many spells of so much driving on, s, a cog that no record names is ridden on purpose. Assumptions of ours, as those below. */
const LEAST_SPELLS = 3;
const SPELL_S = 8;
/** So many moves from one to the other for each spell, and as many back: a chain that leaves its cog by itself waits for a command to come back. */
const LEAST_MOVES_A_SPELL = 0.25;
/** Share of the driving under one count that the unnamed cog takes at least. */
const LEAST_SHARE = 0.1;
/** Share of the driving on the unnamed cog that other counts take at most: the moments before a shift to them is done. */
const MOST_ELSEWHERE = 0.15;

/**
 * Finds the cogs that share their recorded tooth count with a neighbour: no record names them, and the chain drove on them for spell after
 * spell, nearly always while one neighbour was named, and went to and fro between the two without a record. To which of the two a record sends
 * the chain nobody knows, so neither the shifts onto and from the shared name nor the moves between the two can be judged. Records that hold
 * positions tell the two apart.
 */
export function twoCogsOfOneCount({ log, bike, commands, samples }: BikeRide, decoded: DecodedGears): CogsOfOneCount[] {
  if (recordedGears(log.gearRecords).rear.positions.length > 0) return [];
  const named = new Set(commands.cog);
  const driven = drivenSpells(decoded, commands, samples);
  return range(bike.cassette.length).flatMap((unnamed) => {
    if (named.has(unnamed)) return [];
    const on = driven.filter(({ cog }) => cog === unnamed);
    return [unnamed - 1, unnamed + 1].flatMap((neighbour): CogsOfOneCount[] => {
      const under = on.filter(({ asked }) => asked === neighbour);
      const spells = under.filter(({ seconds }) => seconds >= SPELL_S).length;
      const onBoth = under.concat(driven.filter(({ cog, asked }) => cog === neighbour && asked === neighbour));
      const moves = Math.min(movesBetween(driven, neighbour, unnamed), movesBetween(driven, neighbour, unnamed, true));
      return spells >= LEAST_SPELLS &&
        moves >= LEAST_MOVES_A_SPELL * spells &&
        secondsOf(under) >= LEAST_SHARE * secondsOf(onBoth) &&
        secondsOf(under) >= (1 - MOST_ELSEWHERE) * secondsOf(on)
        ? [{ named: neighbour, unnamed, spells }]
        : [];
    });
  });
}

/** Sure driving on one cog while the records named one, s. */
interface DrivenSpell {
  readonly cog: number;
  readonly asked: number;
  seconds: number;
}

function drivenSpells(
  { cog, cogProbability, driving }: DecodedGears,
  commands: GearCommands,
  samples: TurningCranks,
): DrivenSpell[] {
  const spells: DrivenSpell[] = [];
  for (let i = 0; i < cog.length; i++) {
    const asked = commands.latest[i] < 0 ? -1 : commands.cog[commands.latest[i]];
    if (cog[i] < 0 || asked < 0) continue;
    const open = spells.at(-1);
    const seconds =
      cogProbability[i] >= SURELY_ON_COG && driving[i] >= SURELY_DRIVING ? pedalledSeconds(samples, i) : 0;
    if (open?.cog === cog[i] && open.asked === asked) open.seconds += seconds;
    else spells.push({ cog: cog[i], asked, seconds });
  }
  return spells;
}

/** How often the chain went from one cog to the other (or back) while the records went on naming `named`. */
function movesBetween(spells: readonly DrivenSpell[], named: number, unnamed: number, back = false): number {
  const [from, to] = back ? [unnamed, named] : [named, unnamed];
  return spells.filter(
    ({ cog, asked }, i) =>
      i > 0 && asked === named && spells[i - 1].asked === named && spells[i - 1].cog === from && cog === to,
  ).length;
}

const secondsOf = (spells: readonly DrivenSpell[]): number => spells.reduce((sum, { seconds }) => sum + seconds, 0);

/** Says which cogs the records name by one tooth count, and what to do. */
export function twoCogsWarning(shared: readonly CogsOfOneCount[], cassette: readonly number[]): Warning[] {
  return shared.map(({ named, unnamed, spells }) => ({
    code: twoCogsOneCount,
    message: `The gear records seem to name two cogs by one tooth count: by speed and cadence the chain drove ${timesWords(spells)} on the ${cassette[unnamed]} while they named the ${cassette[named]}, and they never name the ${cassette[unnamed]}. Shifts onto and from the ${cassette[named]} are not judged, nor moves between the two. See that the recorder has the right teeth for each cog.`,
  }));
}
