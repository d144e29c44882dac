import { tallyCogs } from '../cogs/tally-cogs.ts';
import { logSumExp } from '../numeric/log-sum-exp.ts';
import { type Cause, causes } from './causes.ts';
import type { Diagnosis, DiagnosisInput } from './diagnosis.ts';

/** Expected trouble rate of a cause for shifts onto a cog (share across the cassette 0..1) in a direction. */
const expected: Record<Cause, (share: number, larger: boolean) => number> = {
  'no-fault': () => 0.02,
  'cable-tension-low': (_, larger) => (larger ? 0.3 : 0.03),
  'cable-tension-high': (_, larger) => (larger ? 0.03 : 0.3),
  'low-limit-tight': (share, larger) => (larger && share === 1 ? 0.5 : 0.02),
  'low-limit-loose': () => 0.02,
  'high-limit-tight': (share, larger) => (!larger && share === 0 ? 0.5 : 0.02),
  'high-limit-loose': () => 0.02,
  'pulley-gap-small': (share, larger) => (larger && share > 0.65 ? 0.3 : 0.03),
  'pulley-gap-large': () => 0.15,
  'hanger-bent': (share, larger) => 0.03 + 0.5 * Math.max(0, larger ? 1 - 2 * share : 2 * share - 1),
  'cable-friction': (_, larger) => (larger ? 0.1 : 0.3),
  'worn-drivetrain': () => 0.02,
};

/** Weighs every cause against the rides. First form: fixed patterns and direction of drops; see the evidence fields. */
export function diagnose(input: DiagnosisInput): Diagnosis {
  const size = input.bike.cassette.length;
  const used = input.rides.filter((ride) => ride.evidence === 'full' || ride.evidence === 'ratio-only');
  const tallies = tallyCogs(
    used.map((ride) => ride.events),
    size,
  );
  const shifts = tallies.reduce((sum, tally) => sum + tally.shifts, 0);
  const drops = used.flatMap((ride) => ride.events.chainDrops);
  const skips = used.reduce((sum, ride) => sum + ride.events.skips.length, 0);
  const scores = causes.map((cause) => {
    let score = Math.log(cause === 'no-fault' ? 0.45 : 0.05);
    for (const tally of tallies) {
      const p = expected[cause](tally.cog / (size - 1), tally.direction === 'to-larger');
      const trouble = tally.late + tally.missed + tally.overshot;
      score += 0.5 * (trouble * Math.log(p) + (tally.shifts - trouble) * Math.log(1 - p));
    }
    for (const drop of drops) {
      if (drop.side === 'past-largest') score += cause === 'low-limit-loose' ? -1 : -6;
      if (drop.side === 'past-smallest') score += cause === 'high-limit-loose' ? -1 : -6;
    }
    return score + Math.min(skips, 20) * (cause === 'worn-drivetrain' ? -1 : -2);
  });
  const total = logSumExp(scores);
  const verdicts = causes
    .map((cause, i) => ({
      cause,
      probability: Math.exp(scores[i] - total),
      evidence: [`${shifts} judged shifts seen.`],
    }))
    .sort((a, b) => b.probability - a.probability);
  const wide = { mean: 0, low: -2, high: 2 };
  return {
    causes: verdicts,
    lateralOffsetMm: wide,
    lateralErrorMm: input.bike.cassette.map((teeth) => ({ teeth, ...wide })),
    clicks:
      input.bike.actuation === 'electronic'
        ? { parameter: 'index-offset', unit: 'steps', mean: 0, low: -10, high: 10 }
        : { parameter: 'cable-tension', unit: 'clicks', mean: 0, low: -10, high: 10 },
    onset: { kind: 'unknown', at: null, probability: 0 },
    riderPart: { probability: 0, troubleRateLowTorque: null, troubleRateHighTorque: null, sentence: '' },
    separates: null,
    undecided: null,
    checkRide: { blocks: [], sentences: [], expectedBits: 0, ordinaryBits: 0 },
    stillThere: 1,
    notes: [],
    suggestion: {
      parameter: 'none',
      action: 'Turn nothing yet.',
      start: 'Ride on and record.',
      verify: 'Look again after the next ride.',
      cautions: ['Follow the manual of the maker and ask a qualified mechanic when in doubt.'],
    },
  };
}
