import type { RideTrace } from '../gear-trace/gear-trace.ts';
import { pedalledSeconds } from '../gear-trace/samples/pedalled-seconds.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { commandedShifts } from './commands/commanded-shifts.ts';
import { reactionShifts } from './commands/reaction-shifts.ts';
import { chainDrops } from './drops/chain-drops.ts';
import { promptHalts } from './drops/halts-at-end.ts';
import { type LostDrive, lostDrive } from './drops/lost-drive.ts';
import { likelyGhosts } from './ghosts/ghost-rate.ts';
import { ghostShifts } from './ghosts/ghost-shifts.ts';
import { ghostSteps } from './ghosts/ghost-steps.ts';
import { goesAtLast } from './ghosts/goes-at-last.ts';
import { betweenCogsOfOneName } from './of-one-count.ts';
import { onRecordsClock } from './on-records-clock.ts';
import { judgeShifts } from './outcomes/judge-shifts.ts';
import { leaveOutAstray } from './outcomes/leave-out-astray.ts';
import type { GhostShiftEvent, RideEvents } from './ride-events.ts';
import { rideInQuestion } from './ride-in-question.ts';
import { skips } from './skips/skips.ts';
import { whileUnsteady } from './while-unsteady.ts';

/** What happened in one ride. */
export interface JudgedRide {
  readonly events: RideEvents;
  /** How much later its speed-to-cadence ratio follows its gear records, s; NaN without either. */
  readonly sensorLagS: number;
  /** Where the chain was on no cog, in order of time. */
  readonly lostDrive: readonly LostDrive[];
}

/** A lag that the ride's shifts tell no better than this, standard deviation in s, is not said: it is mostly what recorders usually do. */
const LAG_KNOWN_S = 0.5;

/** Judges one traced ride: the stage's one entrance. `cogs` is the cassette's number of cogs. */
export const judgeRide = (log: RideLog, trace: RideTrace, cogs: number): JudgedRide =>
  onRecordsClock(judgeByCommands(log, trace, cogs), trace.recordsLateS);

function judgeByCommands(recorded: RideLog, trace: RideTrace, cogs: number): JudgedRide {
  const log = { ...recorded, cadenceRpm: trace.samples.cadenceRpm };
  const ride = rideInQuestion(log, trace);
  const commanded = commandedShifts(log, trace.commands, trace.samples, ride.clock);
  const pedallingSByCog = secondsByCog(trace, cogs);
  if (!trace.model) {
    const because = trace.samples.pedalling.includes(1) ? 'no-drive-seen' : 'no-cadence';
    return {
      events: {
        shifts: reactionShifts(commanded, because),
        ghostShifts: [],
        chainDrops: [],
        skips: [],
        pedallingSByCog,
      },
      sensorLagS: Number.NaN,
      lostDrive: [],
    };
  }
  const drops = chainDrops(log, trace);
  const judged = judgeShifts(ride, commanded, drops);
  const { timing } = judged;
  const shifts = leaveOutAstray(log, trace, judged.shifts);
  const withRecords = trace.commands.timeS.length > 0;
  const lagS = withRecords ? timing.lagS : 0;
  const ghosts = [...ghostShifts(log, trace, lagS, goesAtLast(shifts, ride.clock)), ...ghostSteps(log, trace, lagS)];
  const lost = lostDrive(log, trace, drops);
  return {
    events: {
      shifts,
      ghostShifts: likelyGhosts(
        ghosts.filter(({ ghost }) => isShownClearly(trace, ghost) && !isPutBack(log.timeS, lost, ghost)),
      ),
      chainDrops: drops,
      skips: skips(log, trace, lagS),
      pedallingSByCog,
      ...(withRecords && {
        watchedSByCog: secondsByCog(trace, cogs, cogCommanded(trace)),
        promptHalts: promptHalts(log, trace),
      }),
    },
    sensorLagS: withRecords && timing.lagSpreadS < LAG_KNOWN_S ? timing.lagS : Number.NaN,
    lostDrive: lost,
  };
}

type Unasked = Pick<GhostShiftEvent, 'timeS' | 'heldS' | 'fromCog' | 'toCog'>;

const isShownClearly = (trace: RideTrace, ghost: Unasked): boolean =>
  !whileUnsteady(trace, ghost.timeS, ghost.timeS + ghost.heldS) && !betweenCogsOfOneName(trace, ghost);

/** Whether a chain that was lost is found on another cog: somebody's hand put it there. */
const isPutBack = (recordsS: Float64Array, lost: readonly LostDrive[], { timeS }: Unasked): boolean =>
  lost.some(({ start, end }) => timeS >= recordsS[start] && !(timeS >= recordsS[end]));

/** Whether a commanded cog was known at a record. */
const cogCommanded =
  ({ commands: { latest, cog } }: RideTrace) =>
  (record: number): boolean =>
    latest[record] >= 0 && cog[latest[record]] >= 0;

/** Seconds pedalled on each cog, at the records that count. */
function secondsByCog(trace: RideTrace, cogs: number, counts = (_record: number): boolean => true): Float64Array {
  const seconds = new Float64Array(cogs);
  trace.cog.forEach((cog, record) => {
    if (cog >= 0 && counts(record)) seconds[cog] += pedalledSeconds(trace.samples, record);
  });
  return seconds;
}
