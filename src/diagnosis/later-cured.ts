import type { AdjustmentGroup } from '../adjustments/adjustment-periods.ts';
import type { Diagnosis, DiagnosisInput } from './diagnosis.ts';
import type { Findings } from './findings.ts';
import { historyFrom, historyUntil } from './history.ts';
import type { SuggestionFacts } from './next-step/suggestion-facts.ts';
import { anyShiftsFail, ghostsOften } from './now/fails-like.ts';
import { goesAgainst } from './now/goes-against.ts';
import { seenSince } from './now/seen-since.ts';
import { oppositeOf } from './now/turned-towards.ts';
import { EXPLAINED_FROM } from './verdict-limits.ts';
import { wentTwoWays } from './went-two-ways.ts';

/** A bike's history in two: up to work after which things still went wrong, and from then on, with what was done later. */
interface HistoryInTwo {
  readonly later: DiagnosisInput;
  /** Set where what was done between made one thing better and another worse: then all rides together tell neither. */
  readonly earlier: DiagnosisInput | null;
  /** ISO time of the work between. */
  readonly at: string;
  /** What was done last. */
  readonly last: AdjustmentGroup['adjustments'];
}

/**
 * Where what was done last seems to have mended the fault that all rides name, or nothing shows since, though things went wrong between that and the work
 * before it: a fault may have come in between, and what was done last have cured that one. Null where there is nothing of the kind.
 */
export function historyInTwo(
  input: DiagnosisInput,
  { evidence: { groups } }: Pick<Findings, 'evidence'>,
  facts: Pick<SuggestionFacts, 'ranked' | 'now' | 'wellSince' | 'comparisons'>,
): HistoryInTwo | null {
  const { now, wellSince, ranked } = facts;
  const lastAt = now.since.last?.at;
  const nth = groups.findIndex(({ adjustments }) => adjustments.some(({ at }) => at === lastAt));
  if (nth < 1 || ranked[0].cause === 'no-fault') return null;
  if (now.setting !== 'cured' && !wellSince?.putRight && now.setting !== 'unsettled') return null;
  const [before, last] = [groups[nth - 1], groups[nth]];
  const between = historyUntil(historyFrom(input, before.lastMs), last.firstMs);
  const { seen } = seenSince(between.rides, [], input.bike);
  if (!anyShiftsFail(seen) && !ghostsOften(seen)) return null;
  const at = new Date(before.lastMs).toISOString();
  const twoWays = before.adjustments.some((one) => wentTwoWays(facts, one.at));
  return {
    later: historyFrom(input, before.lastMs),
    earlier: twoWays ? historyUntil(input, before.firstMs) : null,
    at,
    last: last.adjustments,
  };
}

/**
 * Whether the later part of a history names a fault of its own that hardly leaves room for the first, and what was done last goes against it. That shifts go well since
 * is seen, whichever fault it was.
 */
export function isLaterCured(
  whole: Pick<SuggestionFacts, 'ranked' | 'now' | 'wellSince'>,
  { ranked, now, undecided }: Pick<SuggestionFacts, 'ranked' | 'now' | 'undecided'>,
  { last }: HistoryInTwo,
): boolean {
  const first = ranked.find(({ cause }) => cause === whole.ranked[0].cause);
  const named = [ranked[0].cause, ...(undecided?.between ?? [])];
  // a setting turned too far and taken back is one story, told of the first fault
  const opposite = oppositeOf(whole.ranked[0].cause);
  if (opposite && named.includes(opposite)) return false;
  const gone = now.setting === 'cured' || whole.now.setting === 'cured' || Boolean(whole.wellSince?.putRight);
  const undone = last.some((one) => named.some((cause) => goesAgainst(cause, one)));
  return gone && undone && !named.includes('no-fault') && (first?.probability ?? 0) < EXPLAINED_FROM;
}

/** The verdict on what was wrong at first, with the fault that came after it and the cure of that. */
export function withLaterCured(first: Diagnosis, later: Diagnosis, after: string): Diagnosis {
  const { causes, weighed, onset, undecided } = later;
  return {
    ...first,
    ...{ suggestion: later.suggestion, wrongWays: [], checkRide: later.checkRide, separates: later.separates },
    ...{ unexplained: later.unexplained, riderPart: later.riderPart },
    now: { ...first.now, fault: 'no-fault', setting: 'cured' },
    cured: true,
    shiftsWellSince: null,
    laterCured: { after, causes, weighed, onset, undecided },
  };
}
