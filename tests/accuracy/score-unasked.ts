import type { RideEvents } from '../../src/shifts/ride-events.ts';
import type { RideTruth } from '../../src/simulate/truth/truth-schema.ts';
import type { ConfidenceGatherer } from './confidence-bins.ts';
import { detectEvents } from './detect-events.ts';
import type { Say } from './disagreement.ts';
import { matchByTime } from './match-by-time.ts';
import { EVENT_WITHIN_S, GHOST_DRIVEN_S, GHOST_HELD_OVER_S, ghostSeenS } from './matching-rules.ts';
import type { Detection, RideScore } from './ride-score.ts';

/** Sets ghost shifts held over 3 s against the true ones. A report of a shift's own late arrival counts neither way. */
export function scoreGhosts(
  truth: RideTruth,
  reported: RideEvents['ghostShifts'],
  cassette: readonly number[],
  confidence: ConfidenceGatherer,
  say: Say,
): Pick<RideScore, 'ghostShifts' | 'ghostsThatWereLateArrivals' | 'ghostsWithoutMark'> {
  const heldOver = (ghost: { heldS: number }): boolean => ghost.heldS > GHOST_HELD_OVER_S;
  const found = detectEvents(truth.ghostShifts, reported, heldOver);
  const { unmatched } = found;
  const leftMark = (t: number): boolean => {
    const { atS, heldS } = truth.ghostShifts[t];
    return ghostSeenS(truth, atS, heldS) >= GHOST_DRIVEN_S;
  };
  const overlooked = found.overlooked.filter(leftMark);
  const truly = found.pairs.map(([t]) => t).filter((t) => heldOver(truth.ghostShifts[t]));
  const marked = truly.filter(leftMark);
  const arrivals = matchByTime(
    truth.belatedArrivals.map(({ atS }) => atS),
    unmatched.map((r) => reported[r].timeS),
    EVENT_WITHIN_S,
  );
  const excused = new Set([...arrivals].filter((k) => k >= 0).map((k) => unmatched[k]));
  const wrong = unmatched.filter((r) => heldOver(reported[r]) && !excused.has(r));
  reported.forEach((ghost, r) => {
    if (!excused.has(r)) confidence.add(ghost.confidence, !unmatched.includes(r));
  });
  for (const t of overlooked) {
    const { atS, fromTeeth, toTeeth, heldS } = truth.ghostShifts[t];
    say('ghost overlooked', atS, `${fromTeeth} to ${toTeeth}, held ${heldS.toFixed(1)} s`, 'nothing', Number.NaN);
  }
  for (const r of wrong) {
    const { timeS, fromCog, toCog, heldS } = reported[r];
    const move = `${cassette[fromCog]} to ${cassette[toCog]}, held ${heldS.toFixed(1)} s`;
    say('ghost that was none', timeS, 'nothing', move, reported[r].confidence);
  }
  return {
    ghostShifts: { found: marked.length, overlooked: overlooked.length, wrong: wrong.length },
    ghostsThatWereLateArrivals: excused.size,
    ghostsWithoutMark: found.overlooked.length - overlooked.length + (truly.length - marked.length),
  };
}

export function scoreSkips(
  truth: RideTruth,
  reported: RideEvents['skips'],
  confidence: ConfidenceGatherer,
  say: Say,
): Pick<RideScore, 'skips'> {
  const { counts, overlooked, unmatched } = detectEvents(truth.skips, reported);
  reported.forEach((skip, r) => {
    confidence.add(skip.confidence, !unmatched.includes(r));
  });
  for (const t of overlooked) say('skip overlooked', truth.skips[t].atS, 'skip', 'nothing', Number.NaN);
  for (const r of unmatched) say('skip that was none', reported[r].timeS, 'nothing', 'skip', reported[r].confidence);
  return { skips: counts };
}

/** Sets chain drops against the true ones; the side counts for those that were found. */
export function scoreDrops(
  truth: RideTruth,
  reported: RideEvents['chainDrops'],
  confidence: ConfidenceGatherer,
  say: Say,
): { drops: Detection; dropSides: RideScore['dropSides'] } {
  const { counts, pairs, overlooked, unmatched } = detectEvents(truth.chainDrops, reported);
  reported.forEach((drop, r) => {
    confidence.add(drop.confidence, !unmatched.includes(r));
  });
  const astray = pairs.filter(([t, r]) => truth.chainDrops[t].side !== reported[r].side);
  for (const [t, r] of astray)
    say(
      'drop on the wrong side',
      truth.chainDrops[t].atS,
      truth.chainDrops[t].side,
      reported[r].side,
      reported[r].confidence,
    );
  for (const t of overlooked)
    say('drop overlooked', truth.chainDrops[t].atS, truth.chainDrops[t].side, 'nothing', Number.NaN);
  for (const r of unmatched)
    say('drop that was none', reported[r].timeS, 'nothing', reported[r].side, reported[r].confidence);
  return { drops: counts, dropSides: { right: pairs.length - astray.length, of: pairs.length } };
}
