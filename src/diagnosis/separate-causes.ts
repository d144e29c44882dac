import { causePhrase } from './cause-words.ts';
import type { Cause } from './causes.ts';
import type { Separation } from './diagnosis.ts';
import { LookAhead } from './look-ahead.ts';
import { particlesOf } from './particles.ts';
import { firmMustTell, safeShifts } from './safe-shifts.ts';
import type { WeighedCauses } from './weigh-causes.ts';

/** What a look or a touch on the stand tells about a cause. Common practice in the trade, no source. */
const byHand: Readonly<Record<Cause, string>> = {
  'no-fault': '',
  'cable-tension-low':
    'On the stand, one click anticlockwise at the barrel should make shifts to larger cogs plainly better.',
  'cable-tension-high':
    'On the stand, one click clockwise at the barrel should make shifts to smaller cogs plainly better.',
  'low-limit-tight': 'Pushed by hand, the guide pulley should come to stand straight below the largest cog.',
  'low-limit-loose': 'Pushed by hand, the guide pulley should stop straight below the largest cog and no further.',
  'high-limit-tight': 'With the cable slack, the guide pulley should stand a hair outside the smallest cog.',
  'high-limit-loose':
    'With the cable slack, the guide pulley should stand a hair outside the smallest cog and no further.',
  'pulley-gap-small':
    'On the second largest cog, listen whether the guide pulley grinds on the teeth, and measure the gap.',
  'pulley-gap-large': 'On the second largest cog, measure the gap between guide pulley and largest cog.',
  'hanger-bent': 'A hanger gauge tells within a minute.',
  'cable-friction': 'With the chain off load, pull the bare cable by hand: it should run and spring back freely.',
  'worn-drivetrain': 'A chain checker tells within a minute.',
};

/** The same for electronic actuation, which has no cable; the others hold for both. */
const byHandElectronic: Partial<Record<Cause, string>> = {
  'cable-tension-low':
    'On the stand, one step of the index offset inboard should make shifts to larger cogs plainly better.',
  'cable-tension-high':
    'On the stand, one step of the index offset outboard should make shifts to smaller cogs plainly better.',
  'high-limit-tight': 'On the smallest cog, the guide pulley should stand a hair outside it.',
  'high-limit-loose': 'On the smallest cog, the guide pulley should stand a hair outside it and no further.',
  'cable-friction':
    'With the chain off load, move the derailleur by hand: its pivots should move freely and spring back.',
};

/** What shifts tell, then what hands do; hands alone say what they tell apart, or they would seem to be advice. */
export const separationSentence = (shifts: string, hands: readonly string[], [a, b]: readonly string[]): string =>
  hands.length === 0 ? shifts : [shifts || `Shifts hardly tell ${a} from ${b}; a look does.`, ...hands].join(' ');

const particlesEach = 80;

interface Contrast {
  readonly cog: number;
  readonly larger: boolean;
  readonly firm: boolean;
  readonly rates: readonly [number, number];
  /** Nats a shift. */
  readonly divergence: number;
}

const mean = (values: Float64Array, rows: readonly number[]): number =>
  rows.reduce((sum, row) => sum + values[row], 0) / rows.length;

/** Relative entropy between two chances, symmetric: how fast trials tell them apart. */
const contrast = (p: number, q: number): number => (p - q) * Math.log(p / q) + (q - p) * Math.log((1 - p) / (1 - q));

/** What a shift tells, less for having to press firmly. */
const worth = ({ divergence, firm }: Contrast): number => (firm ? divergence / firmMustTell : divergence);

function bestShift(
  lookAhead: LookAhead,
  rows: readonly [readonly number[], readonly number[]],
  cogs: number,
): Contrast {
  const safe = safeShifts(lookAhead, cogs);
  let best: Contrast = { cog: 1, larger: true, firm: false, rates: [0, 0], divergence: -1 };
  for (let cog = 0; cog < cogs; cog++)
    for (const larger of [true, false])
      for (const firm of [false, true]) {
        if ((larger ? cog === 0 : cog === cogs - 1) || !safe(cog, firm)) continue;
        const { trouble, drop } = lookAhead.expect({ cog, larger, firm });
        const bad = trouble.map((p, i) => 1 - (1 - p) * (1 - drop[i]));
        const rates = [mean(bad, rows[0]), mean(bad, rows[1])] as const;
        const divergence = contrast(rates[0], rates[1]);
        const one = { cog, larger, firm, rates, divergence };
        if (worth(one) > worth(best)) best = one;
      }
  return best;
}

/** A contrast this small needs hundreds of shifts to tell anything. */
const tellsNothing = 0.02;

/** A rate foreseen, to stand behind "about". */
const wholePercent = (rate: number): string => `${Math.round(100 * rate)} %`;

/**
 * What would tell two causes apart: the shift on which they differ most, or the skips where they differ more in those,
 * and what can be tried by hand.
 */
export function separateCauses(
  weighed: WeighedCauses,
  between: readonly [Cause, Cause],
  cassette: readonly number[],
  electronic: boolean,
): Separation {
  const particles = between.flatMap((cause) => particlesOf(weighed, cause, particlesEach));
  const lookAhead = new LookAhead(particles, weighed.model);
  const rowsOf = (cause: Cause): number[] =>
    lookAhead.particles.map((_, i) => i).filter((i) => lookAhead.particles[i].cause === cause);
  const rows = [rowsOf(between[0]), rowsOf(between[1])] as const;
  const [a, b] = between.map((cause) => causePhrase(cause, electronic));
  const shift = bestShift(lookAhead, rows, cassette.length);
  const skips = rows.map((own) => mean(lookAhead.skipsPerHour, own)) as [number, number];
  const skipDivergence = (skips[0] - skips[1]) * Math.log((skips[0] + 0.01) / (skips[1] + 0.01)) * 0.1;
  const seen =
    Math.max(skipDivergence, shift.divergence) < tellsNothing
      ? ''
      : skipDivergence > shift.divergence
        ? `Skips under load tell most: with ${a} about ${skips[0].toFixed(1)} in an hour on the most used cog, with ${b} about ${skips[1].toFixed(1)}.`
        : `Shifts onto the ${cassette[shift.cog]} from ${shift.larger ? 'smaller' : 'larger'} cogs, ${shift.firm ? 'pressing firmly' : 'soft on the pedals'}, tell most: with ${a} about ${wholePercent(shift.rates[0])} of them would go wrong, with ${b} about ${wholePercent(shift.rates[1])}.`;
  const hand = between
    .map((cause) => (electronic ? byHandElectronic[cause] : undefined) ?? byHand[cause])
    .filter((text) => text !== '');
  return { between: [...between], sentence: separationSentence(seen, hand, [a, b]) };
}
