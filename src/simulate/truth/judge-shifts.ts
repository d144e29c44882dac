import { bisector } from 'd3-array';
import { type MechanicalTrack, TRACK_HZ } from '../mechanics/mechanical-track.ts';

/** Rules of the contract, as numbers. */
const BURST_EXACT_S = 1.2;
const BURST_WHOLE_S = 1;
const PEDALLING_RPM = 30;
const JUDGED_FROM_S = 2;
const CLEAN_REVS = 1.5;
const LATE_REVS = 5;
/** A chain that leaves a cog again within this time has not settled there. */
const SETTLED_FOR_S = 1;

/** A shift that was asked for, as the chain truly answered it. */
interface JudgedShift {
  /** Range of the track's commands that make up the shift, end exclusive. */
  readonly first: number;
  readonly end: number;
  readonly fromCog: number;
  readonly toCog: number;
  readonly outcome: 'clean' | 'late' | 'missed' | 'overshot' | 'unjudged';
  readonly crankRevs: number | null;
  readonly crankRevsFromFirst: number | null;
  readonly settledS: number | null;
}

/** Judges every commanded shift of a ride from what the chain really did. `recordedS` is the time each command was recorded with. */
export function judgeShifts(track: MechanicalTrack, recordedS: Float64Array, wholeSeconds: boolean): JudgedShift[] {
  const bursts = mergeBursts(track, recordedS, wholeSeconds);
  const endS = (track.samples - 1) / TRACK_HZ;
  return bursts
    .map(({ first, end }, i) => {
      const nextS = i + 1 < bursts.length ? track.commands[bursts[i + 1].first].timeS : endS;
      return judge(track, first, end, nextS, i + 1 < bursts.length);
    })
    .filter((shift) => shift.fromCog !== shift.toCog);
}

function mergeBursts(track: MechanicalTrack, recordedS: Float64Array, wholeSeconds: boolean) {
  const bursts: { first: number; end: number }[] = [];
  for (let i = 0; i < track.commands.length; i++) {
    const gapS = i === 0 ? Number.POSITIVE_INFINITY : recordedS[i] - recordedS[i - 1];
    const joins = wholeSeconds ? gapS <= BURST_WHOLE_S : gapS < BURST_EXACT_S;
    if (joins) bursts[bursts.length - 1].end = i + 1;
    else bursts.push({ first: i, end: i + 1 });
  }
  return bursts;
}

function judge(track: MechanicalTrack, first: number, end: number, nextS: number, another: boolean): JudgedShift {
  const start = track.commands[first];
  const last = track.commands[end - 1];
  const shift = { first, end, fromCog: start.fromCog, toCog: last.toCog };
  const settled = settling(track, last.timeS, nextS, last.toCog, Math.sign(last.toCog - start.fromCog));
  const fromLast = settled.settled ? Math.max(0, settled.settled.crankTurns - last.crankTurns) : null;
  const fromFirst = settled.settled ? Math.max(0, settled.settled.crankTurns - start.crankTurns) : null;
  const settledS = settled.settled ? Math.max(last.timeS, settled.settled.timeS) : null;
  const measures = { crankRevs: fromLast, crankRevsFromFirst: fromFirst, settledS };
  const enough = pedalledS(track, last.timeS, nextS) >= JUDGED_FROM_S;
  const turnsSeen = turnsAt(track, nextS) - last.crankTurns;
  const openEnd = !another && fromLast === null && turnsSeen < LATE_REVS;
  if (!enough || openEnd) return { ...shift, ...measures, outcome: 'unjudged' };
  if (settled.beyondAtTurns - last.crankTurns <= LATE_REVS) return { ...shift, ...measures, outcome: 'overshot' };
  if (fromLast === null || fromLast > LATE_REVS) return { ...shift, ...measures, outcome: 'missed' };
  return { ...shift, ...measures, outcome: fromLast <= CLEAN_REVS ? 'clean' : 'late' };
}

/** When the chain came to stay on `cog` between two times, and at which crank turn it stayed beyond it, if it did so first. */
function settling(track: MechanicalTrack, fromS: number, untilS: number, cog: number, direction: number) {
  const { cogChanges } = track;
  let i = lastChangeBefore(track, fromS);
  let beyondAtTurns = Number.POSITIVE_INFINITY;
  for (; i < cogChanges.length && (cogChanges[i].timeS < untilS || cogChanges[i].timeS <= fromS); i++) {
    const change = cogChanges[i];
    const leftS = i + 1 < cogChanges.length ? cogChanges[i + 1].timeS : Number.POSITIVE_INFINITY;
    const stays = Math.min(leftS, untilS) - Math.max(change.timeS, fromS) >= SETTLED_FOR_S || leftS >= untilS;
    if (!stays) continue;
    if (change.cog === cog) return { settled: change, beyondAtTurns };
    if (change.cog >= 0 && (change.cog - cog) * direction > 0 && change.timeS > fromS)
      beyondAtTurns = Math.min(beyondAtTurns, change.crankTurns);
  }
  return { settled: null, beyondAtTurns };
}

const afterChange = bisector(({ timeS }: MechanicalTrack['cogChanges'][number]) => timeS).right;

/** Index of the change that tells where the chain was at a moment. */
const lastChangeBefore = (track: MechanicalTrack, timeS: number): number =>
  Math.max(0, afterChange(track.cogChanges, timeS) - 1);

/** Crank turns made until a moment. */
export function turnsAt(track: MechanicalTrack, timeS: number): number {
  const at = Math.max(0, Math.min(track.samples - 1, timeS * TRACK_HZ));
  const i = Math.floor(at);
  const next = Math.min(track.samples - 1, i + 1);
  return track.crankTurns[i] + (at - i) * (track.crankTurns[next] - track.crankTurns[i]);
}

function pedalledS(track: MechanicalTrack, fromS: number, untilS: number): number {
  const turnsASample = PEDALLING_RPM / 60 / TRACK_HZ;
  let samples = 0;
  const last = Math.min(track.samples - 2, Math.floor(untilS * TRACK_HZ));
  for (let i = Math.ceil(fromS * TRACK_HZ); i < last; i++)
    if (track.crankTurns[i + 1] - track.crankTurns[i] > turnsASample) samples++;
  return samples / TRACK_HZ;
}
