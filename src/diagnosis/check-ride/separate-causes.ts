import { causePhrase } from '../cause-words.ts';
import type { Cause } from '../causes.ts';
import type { Separation } from '../diagnosis.ts';
import { LookAhead } from '../posterior/look-ahead.ts';
import { particlesOf } from '../posterior/particles.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import { toldByHand } from '../sentences/told-by-hand.ts';
import type { KeptFrom } from './plan-check-ride.ts';
import { FIRM_MUST_TELL, safeShifts } from './safe-shifts.ts';

/** What shifts tell, then what hands do; hands alone say what they tell apart, or they would seem to be advice. */
export const separationSentence = (shifts: string, hands: readonly string[], [a, b]: readonly string[]): string =>
  hands.length === 0 ? shifts : [shifts || `Shifts hardly tell ${a} from ${b}; a look does.`, ...hands].join(' ');

const PARTICLES_EACH = 80;

/** A shift onto a cog (cassette index) and how unlike two causes make its outcome. */
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
const worth = ({ divergence, firm }: Contrast): number => (firm ? divergence / FIRM_MUST_TELL : divergence);

/**
 * The shift that tells two causes apart best, of those that may be asked for: neither its cog nor the one it begins on is to be kept off.
 *
 * @param rows particles of the one cause and of the other
 */
export function bestShift(
  lookAhead: Pick<LookAhead, 'expect'>,
  rows: readonly [readonly number[], readonly number[]],
  cogs: number,
  { unseen, atRisk }: KeptFrom,
): Contrast {
  const isSafe = safeShifts(cogs, atRisk);
  const safe = (cog: number, firm: boolean): boolean => !unseen.has(cog) && isSafe(cog, firm);
  let best: Contrast = { cog: 1, larger: true, firm: false, rates: [0, 0], divergence: -1 };
  for (let cog = 0; cog < cogs; cog++)
    for (const larger of [true, false])
      for (const firm of [false, true]) {
        const from = larger ? cog - 1 : cog + 1;
        if (from < 0 || from >= cogs || !safe(cog, firm) || !safe(from, firm)) continue;
        const { trouble, drop } = lookAhead.expect({ cog, larger, firm });
        const bad = trouble.map((p, i) => 1 - (1 - p) * (1 - drop[i]));
        const rates = [mean(bad, rows[0]), mean(bad, rows[1])] as const;
        const divergence = contrast(rates[0], rates[1]);
        const one = { cog, larger, firm, rates, divergence };
        if (worth(one) > worth(best)) best = one;
      }
  return best;
}

/**
 * Where the shift begins: on any cog of that side, but on the neighbouring one alone where one of them is not to be ridden on, as an end cog
 * is not while pressing firmly.
 */
export function fromWords(
  { cog, larger, firm }: Pick<Contrast, 'cog' | 'larger' | 'firm'>,
  cassette: readonly number[],
  { unseen, atRisk }: KeptFrom,
): string {
  const isSafe = safeShifts(cassette.length, atRisk);
  const side = [...cassette.keys()].filter((from) => (larger ? from < cog : from > cog));
  if (side.every((from) => isSafe(from, firm) && !unseen.has(from))) return `${larger ? 'smaller' : 'larger'} cogs`;
  return `the ${cassette[larger ? cog - 1 : cog + 1]}`;
}

/** A contrast this small needs hundreds of shifts to tell anything. */
const TELLS_NOTHING = 0.02;

/** A rate foreseen, to stand behind "about". */
const wholePercent = (rate: number): string => `${Math.round(100 * rate)} %`;

/** The bike on which causes are to be told apart. */
interface SeparatedOn extends KeptFrom {
  readonly cassette: readonly number[];
  readonly electronic: boolean;
}

/**
 * What would tell two causes apart: the shift on which they differ most, or the skips where they differ more in those,
 * and what can be tried by hand.
 */
export function separateCauses(
  weighed: WeighedCauses,
  between: readonly [Cause, Cause],
  { cassette, electronic, ...keptFrom }: SeparatedOn,
): Separation {
  const particles = between.flatMap((cause) => particlesOf(weighed, cause, PARTICLES_EACH));
  const lookAhead = new LookAhead(particles, weighed.model);
  const rowsOf = (cause: Cause): number[] =>
    lookAhead.particles.map((_, i) => i).filter((i) => lookAhead.particles[i].cause === cause);
  const rows = [rowsOf(between[0]), rowsOf(between[1])] as const;
  const [a, b] = between.map((cause) => causePhrase(cause, electronic));
  const shift = bestShift(lookAhead, rows, cassette.length, keptFrom);
  const skips = rows.map((own) => mean(lookAhead.skipsPerHour, own)) as [number, number];
  const skipDivergence = (skips[0] - skips[1]) * Math.log((skips[0] + 0.01) / (skips[1] + 0.01)) * 0.1;
  const tells = Math.max(skipDivergence, shift.divergence) >= TELLS_NOTHING;
  const bySkips = tells && skipDivergence > shift.divergence;
  const seen = !tells
    ? ''
    : bySkips
      ? `Skips under load tell most: with ${a} about ${skips[0].toFixed(1)} in an hour on the most used cog, with ${b} about ${skips[1].toFixed(1)}.`
      : `Shifts onto the ${cassette[shift.cog]} from ${fromWords(shift, cassette, keptFrom)}, ${shift.firm ? 'pressing firmly' : 'soft on the pedals'}, tell most: with ${a} about ${wholePercent(shift.rates[0])} of them would go wrong, with ${b} about ${wholePercent(shift.rates[1])}.`;
  const hand = between.map((cause) => toldByHand(cause, electronic)).filter((text) => text !== '');
  return { between: [...between], bySkips, sentence: separationSentence(seen, hand, [a, b]) };
}
