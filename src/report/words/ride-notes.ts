import { counted } from '../../numeric/counted.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { RideReport } from '../ride-report-schema.ts';
import { dropReasons } from './drop-reasons.ts';
import { dropSideWords, evidenceWords } from './event-words.ts';
import { durationWords, sure, sureOf } from './number-words.ts';
import { sinceStart } from './ride-time-words.ts';
import { unclearShifts } from './unclear-outcome.ts';

const MOST_EVENTS = 12;

/** Where a reader finds the events that are left out, by what is read: an option can be given where the text was asked for, not on a page. */
const allListed = {
  text: '--json lists them all',
  page: 'the report in JSON lists them all',
} as const;

/** What a reader must know of one ride beyond its row in the table. */
export function rideNotes(ride: RideReport, medium: keyof typeof allListed): string[] {
  const recorded = `Recorded over ${durationWords(ride.durationS)}.`;
  const kind = `${upperFirst(evidenceWords[ride.evidence])}. `;
  // in a terminal, where every line counts, what a ride lacks is told, and not that it lacks nothing
  const notes =
    medium === 'text' && ride.evidence === 'full'
      ? [[recorded, ...rolloutNote(ride)].join(' ')]
      : [kind + recorded, ...rolloutNote(ride)];
  notes.push(...unclearNote(ride));
  notes.push(...shortened(ride.chainDrops.map(dropWords(ride)), 'chain drop', medium));
  notes.push(...shortened(ride.ghostShifts.map(ghostWords(ride)), 'ghost shift', medium));
  notes.push(...ride.warnings.map((warning) => `Note: ${warning.message}`));
  return notes;
}

function rolloutNote({ rolloutMm, sensorLagS }: RideReport): string[] {
  if (rolloutMm === null) return [];
  const lag = sensorLagS === null ? '' : ` ${lagWords(sensorLagS)}`;
  return [`Rollout by this ride: ${Math.round(rolloutMm)} mm.${lag}`];
}

/** How many of the shifts in trouble may have gone another way; nothing where none. */
function unclearNote(ride: RideReport): string[] {
  const { late, missed, overshot } = ride.counts;
  const unclear = unclearShifts(ride);
  if (unclear === 0) return [];
  return [
    `${unclear} of the ${late + missed + overshot} late, missed or overshot shifts ${unclear === 1 ? 'is' : 'are'} unclear: something likely went wrong, but none of the three is 50 % sure.`,
  ];
}

/** Which of the two comes later: some recorders write down a change of gear after the chain has moved. */
function lagWords(sensorLagS: number): string {
  const size = Math.abs(sensorLagS).toFixed(1);
  if (size === '0.0') return 'The sensors are in step with the gear record.';
  return sensorLagS > 0
    ? `The sensors follow the gear record by ${size} s.`
    : `The gear record follows the sensors by ${size} s.`;
}

const dropWords =
  (ride: RideReport) =>
  (drop: RideReport['chainDrops'][number]): string => {
    const after = drop.afterShiftTo === null ? '' : `, after a shift to ${drop.afterShiftTo} teeth`;
    const what = `Chain dropped ${sinceStart(ride.start, drop.at)} into the ride, ${dropSideWords[drop.side]}${after} (${sureOf(drop)}).`;
    return [what, ...dropReasons(drop.signs)].join(' ');
  };

const ghostWords =
  (ride: RideReport) =>
  (ghost: RideReport['ghostShifts'][number]): string =>
    `Ghost shift ${sinceStart(ride.start, ghost.at)} into the ride: from ${ghost.fromTeeth} to ${ghost.toTeeth} teeth by itself${ghost.towardsCommand ? ', towards the cog missed before' : ''}, held ${Math.round(ghost.heldS)} s (${sure(ghost.confidence)}).`;

function shortened(lines: readonly string[], noun: string, medium: keyof typeof allListed): string[] {
  if (lines.length <= MOST_EVENTS) return [...lines];
  return [
    ...lines.slice(0, MOST_EVENTS),
    `And ${counted(lines.length - MOST_EVENTS, `more ${noun}`)}; ${allListed[medium]}.`,
  ];
}
