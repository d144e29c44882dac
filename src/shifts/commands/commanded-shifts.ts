import type { GearCommands } from '../../gear-trace/commands/gear-commands.ts';
import type { PedallingSamples } from '../../gear-trace/samples/pedalling-samples.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import type { Direction } from '../ride-events.ts';
import type { RevolutionClock } from '../turns/revolution-clock.ts';
import { cogsToCross } from './cogs-to-cross.ts';
import { pedalledBetween } from './pedalled-between.ts';
import { sameBurst } from './same-burst.ts';

/** One shift the rider asked for: a burst of commands taken as one, from the first one's old cog to the last one's new cog. */
export interface CommandedShift {
  readonly timeS: number;
  /** Time of the last command of the burst. */
  readonly lastTimeS: number;
  readonly fromCog: number;
  readonly toCog: number;
  readonly direction: Direction;
  /** Cogs the chain has to cross to `toCog`, see `cogsToCross`. */
  readonly cogsToCross: number;
  /** Seconds since the last command of the burst before; Infinity for the first. */
  readonly quietS: number;
  /** Time of the next shift or burst (also one that returned to where it began); Infinity for the last. */
  readonly untilS: number;
  /** Seconds pedalled over 30 rpm from the last command until `untilS`, by the record's own clock: sensors show them late. */
  readonly pedalledS: number;
}

/**
 * Gathers gear records that change the cog into shifts, as the contract defines them. The first record is a state, no shift; what
 * was asked for before the ride's first record or after its last is none of the ride's.
 */
export function commandedShifts(
  log: RideLog,
  commands: GearCommands,
  samples: PedallingSamples,
  clock: RevolutionClock,
): CommandedShift[] {
  const bursts = gatherBursts(commands, log.gearRecords.wholeSeconds);
  const [beginS, endS] = [log.timeS[0], log.timeS[log.timeS.length - 1]];
  return bursts.flatMap((burst, i) => {
    if (burst.fromCog === burst.toCog || burst.timeS < beginS || burst.timeS > endS) return [];
    const untilS = bursts[i + 1]?.timeS ?? Number.POSITIVE_INFINITY;
    return {
      ...burst,
      quietS: i === 0 ? Number.POSITIVE_INFINITY : burst.timeS - bursts[i - 1].lastTimeS,
      direction: burst.toCog > burst.fromCog ? ('to-larger' as const) : ('to-smaller' as const),
      cogsToCross: cogsToCross(bursts, i, clock.at),
      untilS,
      pedalledS: pedalledBetween(log.timeS, samples, clock, burst.lastTimeS, untilS),
    };
  });
}

interface Burst {
  timeS: number;
  lastTimeS: number;
  fromCog: number;
  toCog: number;
}

function gatherBursts(commands: GearCommands, wholeSeconds: boolean): Burst[] {
  const bursts: Burst[] = [];
  for (let i = 1; i < commands.timeS.length; i++) {
    const fromCog = commands.cog[i - 1];
    const toCog = commands.cog[i];
    if (fromCog < 0 || toCog < 0 || fromCog === toCog) continue;
    const timeS = commands.timeS[i];
    const open = bursts.at(-1);
    if (open && sameBurst(timeS - open.lastTimeS, wholeSeconds)) {
      open.lastTimeS = timeS;
      open.toCog = toCog;
    } else bursts.push({ timeS, lastTimeS: timeS, fromCog, toCog });
  }
  return bursts;
}
