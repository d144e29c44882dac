import { inDropsShadow } from '../../src/diagnosis/evidence/untold-halts.ts';
import { momentIso } from '../../src/report/moment-iso.ts';
import { countEvents } from '../../src/report/ride-counts.ts';
import type { RideReport } from '../../src/report/ride-report-schema.ts';
import { openExpectation } from '../../src/shifts/outcomes/open-expectation.ts';
import type {
  DropSide,
  Outcome,
  OutcomeProbability,
  RideEvents,
  UnjudgedReason,
} from '../../src/shifts/ride-events.ts';
import type { Judgement } from '../store/judgement-store.ts';
import { type EventKind, eventKey } from './event-key.ts';

/** Judgements by event key, as `matchJudgements` gives them. */
export type Judged = ReadonlyMap<string, Said>;
type Said = Pick<Judgement, 'verdict'> & Partial<Pick<Judgement, 'side'>>;

const certainly = (outcome: Outcome): OutcomeProbability => ({
  clean: 0,
  late: 0,
  missed: 0,
  overshot: 0,
  ...(outcome === 'unjudged' ? {} : { [outcome]: 1 }),
});

/** What an event must have to be judged. */
interface Judgeable {
  readonly confidence: number;
}
interface JudgeableDrop extends Judgeable {
  readonly side: DropSide;
}
interface JudgeableGhost extends Judgeable {
  readonly towardsCommand?: boolean;
}
interface JudgeableShift extends Judgeable {
  readonly outcome: Outcome;
  readonly unjudgedBecause: UnjudgedReason | null;
  readonly crankRevs: number | null;
}

/** The lists of events of a ride, as the engine or as the report holds them. */
interface EventLists<Shift, Ghost, Drop, Skip> {
  readonly shifts: readonly Shift[];
  readonly ghostShifts: readonly Ghost[];
  readonly chainDrops: readonly Drop[];
  readonly skips: readonly Skip[];
}

/**
 * What a shift counts as once the rider has spoken: a confirmed one is as it was found, for sure; a rejected late, missed
 * or overshot one was clean; a rejected clean one was something nobody knows, so it is not judged. Of a shift that was
 * not judged nothing was said that could be confirmed or rejected: it stays as it is.
 */
const judgeShift = <Shift extends JudgeableShift>(shift: Shift, { verdict }: Said): Shift => {
  if (shift.outcome === 'unjudged') return shift;
  if (verdict === 'confirmed') return { ...shift, confidence: 1 };
  if (shift.outcome !== 'clean') return { ...shift, outcome: 'clean', crankRevs: null, confidence: 1 };
  return { ...shift, outcome: 'unjudged', unjudgedBecause: 'rejected', crankRevs: null, confidence: 0 };
};

const judgeOther = <Event extends Judgeable>(event: Event, { verdict }: Said): Event | null =>
  verdict === 'rejected' ? null : { ...event, confidence: 1, ...(verdict === 'told' && { toldByRider: true }) };

/** Where the rider saw the chain is where it went. */
const judgeDrop = <Drop extends JudgeableDrop>(drop: Drop, said: Said): Drop | null =>
  judgeOther(said.side && said.side !== 'unknown' ? { ...drop, side: said.side } : drop, said);

/**
 * The events as the rider's judgements leave them. Rejected ghost shifts, chain drops and skips are taken out; what is
 * confirmed, or made clean, is certain. Where a missed shift is rejected the chain was there, and its going there later falls too, unless that is confirmed by itself. Shifts
 * keep their places, and one that nobody judged is the same object.
 */
function judgeLists<
  Shift extends JudgeableShift,
  Ghost extends JudgeableGhost,
  Drop extends JudgeableDrop,
  Skip extends Judgeable,
>(lists: EventLists<Shift, Ghost, Drop, Skip>, judged: Judged, at: (event: Shift | Ghost | Drop | Skip) => string) {
  const saidOf = (kind: EventKind, event: Shift | Ghost | Drop | Skip): Said | undefined =>
    judged.get(eventKey(kind, at(event)));
  const verdictOn = (kind: EventKind, event: Shift | Ghost | Drop | Skip) => saidOf(kind, event)?.verdict;
  const each = <Event extends Shift | Ghost | Drop | Skip>(
    kind: EventKind,
    list: readonly Event[],
    judge: (event: Event, said: Said) => Event | null,
  ): Event[] =>
    list
      .map((event) => {
        const said = saidOf(kind, event);
        return said ? judge(event, said) : event;
      })
      .filter((event) => event !== null);
  const fallsWithItsShift = (ghost: Ghost): boolean => {
    const shift = lists.shifts.findLast((before) => at(before) <= at(ghost));
    return shift !== undefined && verdictOn('shift', shift) === 'rejected';
  };
  const ghosts = lists.ghostShifts.filter(
    (ghost) => !(ghost.towardsCommand && verdictOn('ghost', ghost) !== 'confirmed' && fallsWithItsShift(ghost)),
  );
  return {
    shifts: each('shift', lists.shifts, judgeShift),
    ghostShifts: each('ghost', ghosts, judgeOther),
    chainDrops: each('drop', lists.chainDrops, judgeDrop),
    skips: each('skip', lists.skips, judgeOther),
  };
}

/** A ride's events after judgement, for tallies and diagnosis. */
export function judgeEvents(events: RideEvents, startMs: number, judged: Judged): RideEvents {
  if (judged.size === 0) return events;
  const lists = judgeLists(events, judged, ({ timeS }) => momentIso(startMs, timeS));
  const shifts = lists.shifts.map((shift, i) =>
    shift === events.shifts[i] ? shift : { ...shift, probability: certainly(shift.outcome), expected: openExpectation },
  );
  return { ...events, ...lists, shifts, ...haltsThatStand(events, lists.chainDrops) };
}

/** Where the rider says that no chain was lost, the halt says nothing of one. */
function haltsThatStand(
  { promptHalts, chainDrops }: RideEvents,
  stand: RideEvents['chainDrops'],
): Pick<RideEvents, 'promptHalts'> {
  if (!promptHalts || stand.length === chainDrops.length) return {};
  const rejected = chainDrops.filter(({ timeS }) => stand.every((drop) => drop.timeS !== timeS));
  const ontoEnd = promptHalts.ontoEnd.filter(({ timeS }) => !inDropsShadow({ chainDrops: rejected }, timeS));
  return { promptHalts: { ...promptHalts, ontoEnd } };
}

/** What the engine found in a ride after judgement: its lists and its counts. What else its events carry stays with them. */
export function judgeFound<Report extends RideReport>(report: Report, judged: Judged): Report {
  if (judged.size === 0) return report;
  const lists = judgeLists(report, judged, ({ at }) => at);
  // when a shift was done is not known either once the turns that it took are not
  const shifts = lists.shifts.map((shift, i) =>
    shift === report.shifts[i] || shift.crankRevs !== null
      ? shift
      : { ...shift, turns: { ...shift.turns, doneS: null } },
  );
  return { ...report, ...lists, shifts, counts: countEvents(lists) };
}
