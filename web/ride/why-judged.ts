import { lowerFirst } from '../../src/numeric/lower-first.ts';
import { chance } from '../../src/numeric/percent.ts';
import { dropReasons } from '../../src/report/words/drop-reasons.ts';
import { dropSideWords } from '../../src/report/words/event-words.ts';
import { chancesInWords, isUnclear, mayWellBeClean } from '../../src/report/words/unclear-outcome.ts';
import { AFTER_COMMAND_S } from '../../src/shifts/drops/drop-side.ts';
import { CLEAN_WITHIN_REVS, LATE_WITHIN_REVS } from '../../src/shifts/turn-limits.ts';
import type { RideReport } from '../api/answers.ts';
import { isOnlyTold, type RideEvent } from './ride-event.ts';
import type { ShiftAround } from './shift-around.ts';

type Shift = Extract<RideEvent, { shift: unknown }>['shift'];

const crankTurns = (revs: number): string => `${revs.toFixed(1)} crank turns`;

const unjudgedWords: Readonly<Record<NonNullable<Shift['unjudgedBecause']> | 'unknown', string>> = {
  'no-pedalling': 'Less than 2 s of pedalling followed before the next shift',
  'no-cadence': 'There is no cadence here to count crank turns by',
  'no-drive-seen': 'Speed and cadence of this ride do not show which cog the chain was on',
  'not-seen':
    'The records do not tell on which cog the chain ran within its time: the legs hardly drove the wheel, or they lie too far apart',
  astray: 'The sensors went astray around it',
  'two-cogs-one-count': 'The gear records name two cogs by one tooth count',
  rejected: 'You said that it did not go as it was judged',
  unknown: 'Too little is known about it',
};

/** By which of the two rules a shift is a miss: the turns were up, or the rider shifted again before. */
function missedWords(toTeeth: number, cutShortS: number | null): string {
  if (cutShortS !== null)
    return `The next shift came ${cutShortS.toFixed(0)} s later, before ${LATE_WITHIN_REVS} crank turns were up, and the chain was not on the ${toTeeth} by then.`;
  return `The chain was not on the ${toTeeth} within ${LATE_WITHIN_REVS} crank turns.`;
}

function outcomeWords(
  { outcome, unjudgedBecause, crankRevs, toTeeth, fromTeeth }: Shift,
  { cutShortS }: ShiftAround,
): string {
  switch (outcome) {
    case 'clean':
      return crankRevs === null
        ? `The chain came onto the ${toTeeth} within ${crankTurns(CLEAN_WITHIN_REVS)}.`
        : `The chain was on the ${toTeeth} after ${crankTurns(crankRevs)}. Up to ${CLEAN_WITHIN_REVS} is clean.`;
    case 'late':
      return crankRevs === null
        ? `The chain came onto the ${toTeeth} later than ${crankTurns(CLEAN_WITHIN_REVS)}, but within ${LATE_WITHIN_REVS}.`
        : `The chain was on the ${toTeeth} only after ${crankTurns(crankRevs)}. Over ${CLEAN_WITHIN_REVS} is late.`;
    case 'missed':
      return missedWords(toTeeth, cutShortS);
    case 'overshot':
      return `The chain settled beyond the ${toTeeth}, on its way from the ${fromTeeth}.`;
    case 'unjudged':
      return `${unjudgedWords[unjudgedBecause ?? 'unknown']}, so the shift was not judged.`;
  }
}

/** Less than this is not worth a word. */
const SHORT_LAG_S = 0.75;

/** Where the chain lay when that was not yet the cog the shift began at. */
function stoodWords({ outcome, fromTeeth, toTeeth }: Shift, { stoodOn, whileCoasting }: ShiftAround): string[] {
  if (stoodOn === null || outcome === 'clean') return [];
  const why = whileCoasting ? ', with hardly any pedalling since' : '';
  return [
    `The chain still lay on the ${stoodOn} then: the ${fromTeeth} had been asked for before that${why}. So the way was from the ${stoodOn} to the ${toTeeth}.`,
  ];
}

/** True for a missed shift whose chain is drawn on the cog asked for in time. */
const drawnInTime = ({ outcome }: Shift, { lineInTimeS }: ShiftAround): boolean =>
  outcome === 'missed' && lineInTimeS !== null;

/** Why the drawing may not show what was judged. */
function lineWords(shift: Shift, around: ShiftAround): string[] {
  const { outcome, toTeeth } = shift;
  const { lineArrives, lineInTimeS } = around;
  if (drawnInTime(shift, around))
    return [
      `The line of the chain shows it on the ${toTeeth} from ${(lineInTimeS ?? 0).toFixed(0)} s after the command: it is drawn second by second, as each record fits best. Judged is the shift as a whole, by all its records together.`,
    ];
  if (lineArrives || (outcome !== 'clean' && outcome !== 'late')) return [];
  return [
    `The line of the chain does not show the ${toTeeth}: it is drawn second by second, and each second alone fits another cog better. Judged is the shift as a whole; the wedge shows when it was done.`,
  ];
}

function shiftWords(shift: Shift, around: ShiftAround, sensorLagS: number | null): string[] {
  const torque = shift.torqueNm ?? null;
  return [
    `The derailleur was told to go from ${shift.fromTeeth} to ${shift.toTeeth} teeth.`,
    ...stoodWords(shift, around),
    isUnclear(shift) || drawnInTime(shift, around)
      ? `If it was ${shift.outcome}: ${lowerFirst(outcomeWords(shift, around))}`
      : outcomeWords(shift, around),
    ...lineWords(shift, around),
    ...(sensorLagS === null || sensorLagS < SHORT_LAG_S || shift.outcome === 'unjudged'
      ? []
      : [`This ride’s sensors follow the gear about ${sensorLagS.toFixed(1)} s late; that is taken off.`]),
    ...(torque === null || shift.outcome === 'unjudged' ? [] : [`About ${Math.round(torque)} Nm lay on the crank.`]),
    ...(shift.weak ? ['What the rider did next is weak evidence of how it went; it counts for little.'] : []),
  ];
}

/** How sure a shift's outcome is, with the other ways it may have gone where it is unclear or drawn as one of those. */
function sureWords(shift: Shift, around: ShiftAround): string {
  const unclear = isUnclear(shift);
  const chances = unclear || drawnInTime(shift, around) ? chancesInWords(shift) : null;
  if (chances === null) return `How sure: ${chance(shift.confidence)}.`;
  if (!unclear) return `How sure: ${chances}.`;
  const clean = mayWellBeClean(shift) ? 'Clean is the likeliest of these by itself, but that' : 'That';
  return `Unclear: ${chances}. ${clean} something went wrong is likelier than not, so it counts as the likeliest kind of trouble.`;
}

/** What the ride itself tells of its events. */
type RideFacts = Pick<RideReport, 'sensorLagS' | 'evidence'>;

/** What led to a lost chain, as far as the log has gear records to tell. */
function beforeDrop(afterShiftTo: number | null, evidence: RideFacts['evidence']): string {
  if (afterShiftTo !== null) return `It followed a shift to the ${afterShiftTo}.`;
  return evidence === 'full' || evidence === 'commands-only'
    ? `No shift came in the ${AFTER_COMMAND_S} s before.`
    : 'The log does not tell whether a shift came before.';
}

const LOOK_FOR_DAMAGE = 'A chain that went into the spokes or the frame: stop and look for damage before riding on.';

/** Why a chain is said to have come off. `sure`: how sure that is. */
function whyDropped(
  drop: Extract<RideEvent, { kind: 'drop' }>['drop'],
  evidence: RideFacts['evidence'],
  sure: readonly string[],
): readonly string[] {
  const { side, afterShiftTo, signs } = drop;
  const before = beforeDrop(afterShiftTo, evidence);
  if (isOnlyTold(drop))
    return [
      `You told that the chain came off here; the log does not show it. Side: ${dropSideWords[side]}.`,
      before,
      LOOK_FOR_DAMAGE,
    ];
  return [
    `Drive was lost: the cranks turned without driving the wheel. Side: ${dropSideWords[side]}.`,
    before,
    ...dropReasons(signs),
    LOOK_FOR_DAMAGE,
    ...sure,
  ];
}

/** Why an event was judged as it was, in sentences. */
export function whyJudged(event: RideEvent, { sensorLagS, evidence }: RideFacts): readonly string[] {
  const sure = event.kind === 'unjudged' ? [] : [`How sure: ${chance(event.confidence)}.`];
  switch (event.kind) {
    case 'ghost': {
      const { fromTeeth, toTeeth, heldS, towardsCommand } = event.ghost;
      return [
        `The chain went from the ${fromTeeth} to the ${toTeeth} by itself: there was no command in the 5 s before.`,
        ...(towardsCommand
          ? [
              'It went towards the cog that was asked for and missed before; this is not counted as a sign of a cog that the chain leaves.',
            ]
          : []),
        `It stayed there for ${heldS.toFixed(0)} s; over 1 s counts.`,
        ...sure,
      ];
    }
    case 'drop':
      return whyDropped(event.drop, evidence, sure);
    case 'skip': {
      const { teeth, leapPercent } = event.skip;
      if (isOnlyTold(event.skip))
        return [
          `You told that the chain skipped here; the log does not show it. By the log it was on the ${teeth} then, or that cog had been asked for last.`,
        ];
      return [
        `The chain slipped over the teeth of the ${teeth} under load for less than 2 s, and the cog stayed the same.`,
        ...(leapPercent === undefined ? [] : [`The legs leapt ${Math.round(leapPercent)} % ahead of the wheel.`]),
        ...sure,
      ];
    }
    default:
      return [
        ...shiftWords(event.shift, event.around, sensorLagS),
        ...(event.kind === 'unjudged' ? [] : [sureWords(event.shift, event.around)]),
      ];
  }
}
