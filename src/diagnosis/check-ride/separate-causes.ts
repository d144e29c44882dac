import { causePhrase } from '../cause-words.ts';
import type { Separation } from '../diagnosis.ts';
import { isSeenTo } from '../next-step/after-look.ts';
import type { SuggestionFacts } from '../next-step/suggestion-facts.ts';
import type { LookAhead } from '../posterior/look-ahead.ts';
import { allToldByHand } from '../told-by-hand.ts';
import { type KeptFrom, TIMES_EACH_WAY } from './plan-check-ride.ts';
import type { Rivals } from './rivals.ts';
import { FIRM_MUST_TELL, safeShifts } from './safe-shifts.ts';
import { skipStretch } from './skip-stretch.ts';
import { namedByShifts, TELLS } from './tells-apart.ts';

/** What shifts tell, then what hands do; hands alone say what they tell apart, or they would seem to be advice. */
export const separationSentence = (shifts: string, hands: readonly string[], [a, b]: readonly string[]): string =>
  hands.length === 0 ? shifts : [shifts || `Shifts hardly tell ${a} from ${b}; a look does.`, ...hands].join(' ');

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

/** The chance that a shift goes wrong, a lost chain included, on each imagined bike. */
function badShifts(lookAhead: Pick<LookAhead, 'expect'>, shift: Asked): Float64Array {
  const { trouble, drop } = lookAhead.expect(shift);
  return trouble.map((p, i) => 1 - (1 - p) * (1 - drop[i]));
}

/** What a shift tells, less for having to press firmly. */
const worth = ({ divergence, firm }: Contrast): number => (firm ? divergence / FIRM_MUST_TELL : divergence);

/** A shift that may be asked for. */
type Asked = Pick<Contrast, 'cog' | 'larger' | 'firm'>;

/** Every shift between neighbours that may be asked for: neither its cog nor the one it begins on is to be kept off. */
export function shiftsToAsk(cogs: number, { unseen, atRisk }: KeptFrom): Asked[] {
  const isSafe = safeShifts(cogs, atRisk);
  const safe = (cog: number, firm: boolean): boolean => cog >= 0 && cog < cogs && !unseen.has(cog) && isSafe(cog, firm);
  return Array.from({ length: cogs }, (_, cog) =>
    [true, false].flatMap((larger) => [false, true].map((firm) => ({ cog, larger, firm }))),
  )
    .flat()
    .filter(({ cog, larger, firm }) => safe(cog, firm) && safe(larger ? cog - 1 : cog + 1, firm));
}

/**
 * The one of some shifts that tells two causes apart best; null of none.
 *
 * @param rows particles of the one cause and of the other
 */
export function bestShift(
  lookAhead: Pick<LookAhead, 'expect'>,
  rows: readonly [readonly number[], readonly number[]],
  among: readonly Asked[],
): Contrast | null {
  let best: Contrast | null = null;
  for (const { cog, larger, firm } of among) {
    const bad = badShifts(lookAhead, { cog, larger, firm });
    const rates = [mean(bad, rows[0]), mean(bad, rows[1])] as const;
    const one = { cog, larger, firm, rates, divergence: contrast(rates[0], rates[1]) };
    if (!best || worth(one) > worth(best)) best = one;
  }
  return best;
}

/**
 * Where the shift begins: on any cog of that side, but on the neighbouring one alone where one of them is not to be ridden on, as an end cog
 * is not while pressing firmly.
 */
export function fromWords(
  { cog, larger, firm }: Asked,
  cassette: readonly number[],
  { unseen, atRisk }: KeptFrom,
): string {
  const isSafe = safeShifts(cassette.length, atRisk);
  const side = [...cassette.keys()].filter((from) => (larger ? from < cog : from > cog));
  if (side.every((from) => isSafe(from, firm) && !unseen.has(from))) return `${larger ? 'smaller' : 'larger'} cogs`;
  return `the ${neighbour({ cog, larger }, cassette)}`;
}

/** Teeth of the cog next to a shift's, on the side it comes from. */
const neighbour = ({ cog, larger }: Pick<Asked, 'cog' | 'larger'>, cassette: readonly number[]): number =>
  cassette[larger ? cog - 1 : cog + 1];

/** A rate foreseen, to stand behind "about". */
const wholePercent = (rate: number): string => `${Math.round(100 * rate)} %`;

/** The bike on which causes are to be told apart. */
interface SeparatedOn extends KeptFrom {
  readonly cassette: readonly number[];
  readonly electronic: boolean;
  /** True where nobody is to be asked for anything but a look. */
  readonly byHandOnly: boolean;
  /** False where the recorder writes no gear changes: no shift can be judged then, on no ride. */
  readonly judgesShifts: boolean;
  /** The shifts of the check ride, where they together tell the two apart; none else. */
  readonly planned: readonly Asked[];
  readonly seenTo: SuggestionFacts['seenTo'];
}

/** What a sentence says that tells two causes apart on a ride, and how often it names the right one. */
interface OnRide {
  readonly named: number;
  readonly sentence: string;
}

/** Why more should go wrong on a bike in order than on one that is not: there it is the legs that have made shifts fail so far, and not a part. Empty where less does. */
function byLegs(between: Rivals['between'], { firm, rates }: Pick<Contrast, 'firm' | 'rates'>): string {
  const sound = between.indexOf('no-fault');
  if (sound < 0 || !firm || rates[sound] <= rates[1 - sound]) return '';
  return ', since without a fault it would have to be hard pedalling that makes shifts fail, whichever way they go';
}

const none: OnRide = { named: 0, sentence: '' };

/** The shift on which two causes differ most, as often as a check ride asks for one: of the check ride's own where it tells them apart, so that the rider is not asked for two things. */
function byShifts({ lookAhead, rows, between }: Rivals, [a, b]: readonly string[], on: SeparatedOn): OnRide {
  const { cassette, planned } = on;
  const isPlanned = planned.length > 0;
  const shift = bestShift(lookAhead, rows, isPlanned ? planned : shiftsToAsk(cassette.length, on));
  if (!shift) return none;
  const from = isPlanned ? `the ${neighbour(shift, cassette)}` : fromWords(shift, cassette, on);
  const trouble = badShifts(lookAhead, shift);
  const [one, other] = rows.map((own) => own.map((row) => trouble[row]));
  return {
    named: namedByShifts(one, other, TIMES_EACH_WAY),
    sentence: `Shifts onto the ${cassette[shift.cog]} from ${from}, ${shift.firm ? 'pressing firmly' : 'soft on the pedals'}, tell most: with ${a} about ${wholePercent(shift.rates[0])} of them would go wrong, with ${b} about ${wholePercent(shift.rates[1])}${byLegs(between, shift)}.`,
  };
}

/** Skips in the stretch under load that a check ride asks for. */
function bySkipping({ lookAhead, rows }: Rivals, [a, b]: readonly string[]): OnRide {
  const [one, other] = rows.map((own) => mean(lookAhead.skipsPerHour, own));
  return {
    named: skipStretch({ lookAhead, rows }).named,
    sentence: `Skips under load tell most: with ${a} about ${one.toFixed(1)} in an hour on the most used cog, with ${b} about ${other.toFixed(1)}.`,
  };
}

/**
 * What would tell two causes apart: the shift on which they differ most, or the skips where those tell more, as far as a check ride, or as
 * many shifts or minutes as it asks for, can tell them at all; and what can be tried by hand, but for what was found right, aligned or replaced.
 * Null where nothing is left to say.
 */
export function separateCauses(rivals: Rivals, on: SeparatedOn): Separation | null {
  const { between } = rivals;
  const { electronic, byHandOnly, judgesShifts } = on;
  const planned = judgesShifts ? on.planned : [];
  const phrases = between.map((cause) => causePhrase(cause, electronic));
  const shifts = judgesShifts ? byShifts(rivals, phrases, on) : none;
  const skips = bySkipping(rivals, phrases);
  const tells = !byHandOnly && (planned.length > 0 || Math.max(shifts.named, skips.named) >= TELLS);
  const bySkips = tells && skips.named >= TELLS && skips.named > shifts.named;
  const seen = !tells ? '' : bySkips ? skips.sentence : shifts.sentence;
  const hand = allToldByHand(
    between.filter((cause) => !isSeenTo(cause, on)),
    electronic,
  );
  const sentence = separationSentence(seen, hand, phrases);
  return sentence === '' ? null : { between: [...between], bySkips, sentence };
}
