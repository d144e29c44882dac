import { DECIDED_AT } from '../../adjustments/compare-rates.ts';
import { type CassetteEnd, cassetteEnds, endCog } from '../../adjustments/end-cog-count.ts';
import { triesStillNeeded } from '../../adjustments/limit-holds.ts';
import { counted } from '../../numeric/counted.ts';
import { listed } from '../../numeric/listed.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { type CausePlace, causePlace, shiftsAt } from '../cause-place.ts';
import type { Cause } from '../causes.ts';
import type { BikeNow } from '../now/bike-now.ts';
import type { LimitTrial } from '../now/limit-trial.ts';
import { lateOrMissed, type Observed, type ShiftCount } from '../observed.ts';

/** Rates outside these would ask for too few or too many shifts. An assumption of ours. */
const LEAST_RATE = 0.05;
const MOST_RATE = 0.6;
/** A direction with less than this share of the rate over all shifts is not where the fault showed. An assumption of ours. */
const HARDLY_FAILS = 0.5;

/** As many shifts as anybody makes on a stand: there the stop itself is looked at, and the rest is shown by riding. An assumption of ours. */
const MOST_ON_STAND = 10;

/** Shifts that would all go well by chance only once in twenty times if nothing had changed. */
export function shiftsToProve(wrong: number, shifts: number): number {
  const rate = Math.min(MOST_RATE, Math.max(LEAST_RATE, wrong / Math.max(1, shifts)));
  return Math.round(Math.log(0.05) / Math.log(1 - rate)) + 2;
}

const rateOf = (count: ShiftCount): number => lateOrMissed(count) / Math.max(1, count.shifts);

/** Where a cause shows, off the end cogs where that is a whole direction: nobody need ride there for what shows on any cog. */
function usualPlace(cause: Cause, seen: Observed): CausePlace | null {
  const last = seen.cassette.length - 1;
  const place = causePlace(cause, seen);
  return place && place.to - place.from === last - 1 ? keptOff(place, new Set(cassetteEnds), last) : place;
}

/** The cogs on which shifts in the one direction that failed did so; null where both failed, or none. */
function failedPlace(seen: Observed): CausePlace | null {
  const fails = (direction: Direction): boolean => rateOf(seen.shifts(direction)) >= HARDLY_FAILS * rateOf(seen.all);
  const larger = fails('to-larger');
  if (lateOrMissed(seen.all) === 0 || larger === fails('to-smaller')) return null;
  const direction = larger ? 'to-larger' : 'to-smaller';
  const failed = seen.cassette
    .map((_, cog) => cog)
    .filter((cog) => lateOrMissed(shiftsAt(seen, { direction, from: cog, to: cog })) > 0);
  return { direction, from: Math.min(...failed), to: Math.max(...failed) };
}

/** Shifts that went well before would go well after any repair: the place has to be one that failed. */
function placeToProve(cause: Cause, seen: Observed): CausePlace | null {
  const usual = usualPlace(cause, seen);
  if (usual && rateOf(shiftsAt(seen, usual)) >= rateOf(seen.all)) return usual;
  return failedPlace(seen);
}

/** The part of a place that can be ridden off the end cogs past which a chain was lost; null where nothing is left of it. */
function keptOff(
  { direction, from, to }: CausePlace,
  keepOff: ReadonlySet<CassetteEnd>,
  last: number,
): CausePlace | null {
  // a shift begins on the neighbouring cog, which is not to be an end one either
  const least = keepOff.has('past-smallest') ? (direction === 'to-larger' ? 2 : 1) : 0;
  const most = keepOff.has('past-largest') ? (direction === 'to-smaller' ? last - 2 : last - 1) : last;
  const part = { direction, from: Math.max(from, least), to: Math.min(to, most) };
  return part.from <= part.to ? part : null;
}

function placeWords({ direction, from, to }: CausePlace, cassette: readonly number[]): string {
  const last = cassette.length - 1;
  const [step, first, end] = direction === 'to-larger' ? [1, from, to] : [-1, to, from];
  const softly = from === 0 || to === last ? ', softly, away from traffic,' : '';
  if (from === to) return `from the ${cassette[first - step]} onto the ${cassette[first]}${softly}`;
  return `to ${direction === 'to-larger' ? 'larger' : 'smaller'} cogs, onto the ${cassette[first]} to the ${cassette[end]}${softly}`;
}

/** Shifts onto an end cog, from its neighbour. */
const ontoEnd = (end: CassetteEnd, cassette: readonly number[]): string => {
  const last = cassette.length - 1;
  return end === 'past-largest'
    ? `from the ${cassette[last - 1]} onto the ${cassette[last]}`
    : `from the ${cassette[1]} onto the ${cassette[0]}`;
};

/** The end whose cog leaves nothing of a place to ride. */
const endOf = ({ from }: CausePlace, keepOff: ReadonlySet<CassetteEnd>): CassetteEnd =>
  keepOff.has('past-smallest') && from <= 1 ? 'past-smallest' : 'past-largest';

/** Whether the shifts of a place at an end of the cassette begin on its end cog. */
const leadsOff = (end: CassetteEnd, { direction }: CausePlace): boolean =>
  direction === (end === 'past-smallest' ? 'to-larger' : 'to-smaller');

/** How the proof of an end cog is asked for. */
interface EndProof {
  readonly keptOff: boolean;
  readonly trial?: LimitTrial;
  /** Whether the shifts that failed are those off the end cog: then the way back is proved too. */
  readonly andBack?: boolean;
  /** Whether the hanger is to be in order first. */
  readonly hanger?: boolean;
}

/**
 * A loose limit shows by a lost chain, seldom by a late shift. Where one was lost the proof is on a stand; on a ride only after that, and once
 * something was done about it.
 */
function staysOn(seen: Observed, end: CassetteEnd, { keptOff, trial, andBack, hanger }: EndProof): string {
  const onto = endCog(end, seen.cassette.length);
  const onTrial = trial !== undefined && trial.fromMs !== null && trial.before.lost > 0;
  const { lost, asked } = onTrial ? trial.before : { lost: seen.drops(end), asked: seen.commandedOnto(onto) };
  const wanted = shiftsToProve(lost, asked);
  const make = (count: number): string =>
    `make at least ${count} shifts ${ontoEnd(end, seen.cassette)}${andBack ? ' and back,' : ''}`;
  const shifts = make(Math.min(wanted, MOST_ON_STAND));
  const cured = andBack ? 'stays on and comes back at once' : 'stays on';
  // as many as the entry itself asks for: the one question is whether it is cured
  const more = onTrial ? triesStillNeeded(trial.before, trial.since, DECIDED_AT) : 0;
  const atFirst = trial && trial.before.lost > 0 ? trial.before : { reached: asked, lost };
  const left =
    lost > 0
      ? triesStillNeeded(atFirst, { reached: 0, lost: 0 }, DECIDED_AT)
      : Math.max(0, shiftsToProve(lost, asked) - MOST_ON_STAND);
  if (onTrial && keptOff) {
    const what = trial.since.reached > 0 ? 'more shift' : 'shift';
    return `${hanger ? 'Once the hanger is in order, on' : 'On'} a stand ${shifts}, turning the cranks by hand. Until the chain stays on there, keep off that cog on any ride. Once it does, ${provedOnRides(more, what)}`;
  }
  if (more)
    return `Try it on a stand first, turning the cranks by hand. Once the chain stays on there, ${provedOnRides(more, 'more shift')}`;
  return keptOff
    ? `Once ${hanger ? 'the hanger is in order and ' : ''}the limit is set, ${shifts} on a stand, turning the cranks by hand: a cure shows as a chain that ${cured}. Until it does, keep off that cog on any ride.${onRides(left)}`
    : `Once the limit is set, and tried on a stand, ${make(wanted)} on the next ride, softly, away from traffic: a cure shows as a chain that stays on.`;
}

/** Nobody is asked for more shifts than this onto a cog past which the chain was lost; where the proof takes more, riding brings them. */
const MOST_ON_PURPOSE = 50;

/** What shows that a limit holds once it does on a stand. Riders go onto an end cog a few times a ride: left to itself the proof takes weeks. `tries`: null where it takes more than can be told. */
function provedOnRides(tries: number | null, what: 'shift' | 'more shift'): string {
  if (tries !== null && tries <= MOST_ON_PURPOSE)
    return `make ${counted(tries, what)} onto it on purpose on rides, softly, away from traffic, since ordinary riding brings only a few: that would show that the chain is no longer lost past it.`;
  const many = tries === null ? `many ${what}s` : counted(tries, what);
  return `shift onto it as riding asks for it, softly, away from traffic: ${many} would show that the chain is no longer lost past it, too many to make on purpose.`;
}

/** The shifts that show on rides that a limit holds, once it does on a stand: as many before its screw is turned as after, since no log shows those on the stand. */
const onRides = (tries: number | null): string =>
  tries === 0 ? '' : ` Once it does, ${provedOnRides(tries, tries === null ? 'more shift' : 'shift')}`;

function noSkip(seen: Observed, keepOff: ReadonlySet<CassetteEnd>): string {
  const last = seen.cassette.length - 1;
  const skipped = seen.cassette
    .filter((_, cog) => !(cog === 0 && keepOff.has('past-smallest')) && !(cog === last && keepOff.has('past-largest')))
    .filter((teeth) => seen.skips((on) => seen.cassette[on] === teeth) > 0);
  const where = skipped.length > 0 ? `the cogs it skipped on (${skipped.join(', ')})` : 'the most used cogs';
  return `On the next ride pedal firmly but seated for ten minutes on ${where}: a cure shows as no skip at all.`;
}

/** Both directions over the cassette, but for the end cogs past which a chain was lost. */
function everywhereBut(keepOff: ReadonlySet<CassetteEnd>, { cassette }: Observed): string {
  const lost = cassetteEnds.filter((end) => keepOff.has(end)).map((end) => cassette[endCog(end, cassette.length)]);
  const but = lost.length > 0 ? ` but for the ${listed(lost)}, past which the chain was lost,` : '';
  return `in both directions over the whole cassette${but}`;
}

/**
 * How the next ride shows whether a cause was cured: by the shifts that failed, enough of them to tell.
 *
 * @param seen the rides that show how shifts fail
 * @param keepOff ends past which a chain was lost: no ride is asked for onto the cog there, nor off it, before a stand has shown that it stays on
 * @param trials how the end cogs fared since their limits were seen to; left out where nothing was adjusted
 * @param hangerDone whether the hanger was seen to, so that nothing waits for it
 */
export function verifyStep(
  cause: Cause,
  seen: Observed,
  keepOff: ReadonlySet<CassetteEnd> = new Set(),
  trials?: BikeNow['trials'],
  hangerDone = false,
): string {
  const hanger = cause === 'hanger-bent' && !hangerDone;
  const stays = (end: CassetteEnd, andBack = false): string =>
    staysOn(seen, end, { keptOff: keepOff.has(end), trial: trials?.[end], andBack, hanger });
  if (cause === 'low-limit-loose') return stays('past-largest');
  if (cause === 'high-limit-loose') return stays('past-smallest');
  if (cause === 'worn-drivetrain') return noSkip(seen, keepOff);
  const whole = placeToProve(cause, seen);
  const place = whole && keptOff(whole, keepOff, seen.cassette.length - 1);
  if (whole && !place) {
    const end = endOf(whole, keepOff);
    return stays(end, leadsOff(end, whole));
  }
  const count = place ? shiftsAt(seen, place) : seen.all;
  const where = place ? placeWords(place, seen.cassette) : everywhereBut(keepOff, seen);
  // a bent hanger is ridden on only once it was seen to
  const first = hanger ? 'the hanger is in order' : 'the derailleur stays clear of the spokes on a stand';
  const when = cause === 'hanger-bent' ? `Once ${first}, on the next ride` : 'On the next ride';
  return `${when} make at least ${shiftsToProve(lateOrMissed(count), count.shifts)} shifts ${where} with five turns of the crank after each: a cure shows as hardly one of them late or missed.`;
}
