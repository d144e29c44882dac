import { endCog } from '../../adjustments/end-cog-count.ts';
import { directions } from '../../cogs/directions.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { listed } from '../../numeric/listed.ts';
import { sureTimesWords } from '../../numeric/sure-times-words.ts';
import { timesWords } from '../../numeric/times-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { DropSide, EndCog } from '../../shifts/ride-events.ts';
import { endOfLimit } from '../cassette-ends.ts';
import { type CausePlace, causePlace, shiftsAt, shiftsBeside } from '../cause-place.ts';
import type { Cause } from '../causes.ts';
import { SAY_LITTLE } from '../fewest-shifts.ts';
import { lateOrMissed, type Observed, type ShiftCount } from '../observed.ts';

/** The verb after "so many of so many shifts": one of several was, none of one was. */
const wasWere = (count: number, of: number): string => (count === 1 || of === 1 ? 'was' : 'were');

/** "14 of 61 shifts to larger cogs were late or missed". */
function share(count: ShiftCount, where: string): string {
  if (count.shifts === 0) return `no judged shift ${where}`;
  const bad = lateOrMissed(count);
  return `${figure(bad)} of ${counted(count.shifts, 'shift')} ${where} ${wasWere(bad, count.shifts)} late or missed`;
}

/** "0 of 60 onto the others", to be set beside such a share. */
const beside = (count: ShiftCount, where: string): string =>
  count.shifts === 0 ? `none judged ${where}` : `${figure(lateOrMissed(count))} of ${figure(count.shifts)} ${where}`;

/** Fewer hours than were pedalled: nothing can be told of those in which the cog is not known. */
const hoursOnKnownCogs = ({ pedallingHours }: Observed): string =>
  `${pedallingHours.toFixed(1)} hours of pedalling on known cogs`;

const sentence = (text: string): string => `${upperFirst(text)}.`;

function bothDirections(seen: Observed, first: 'to-larger' | 'to-smaller'): string {
  const other = first === 'to-larger' ? 'to-smaller' : 'to-larger';
  const name = (direction: string): string => (direction === 'to-larger' ? 'larger' : 'smaller');
  return sentence(
    `${share(seen.shifts(first), `to ${name(first)} cogs`)}, ${beside(seen.shifts(other), `to ${name(other)}`)}`,
  );
}

function tension(seen: Observed, low: boolean): string[] {
  const slow = low ? 'to-larger' : 'to-smaller';
  const past = low ? 'to-smaller' : 'to-larger';
  const pastName = low ? 'smaller' : 'larger';
  const lines = [bothDirections(seen, slow)];
  const ghosts = seen.ghosts(past);
  const against = seen.ghosts(slow);
  if (ghosts + against > 0)
    lines.push(
      sentence(
        `the chain left the cog it was on by itself ${timesWords(ghosts)} to a ${pastName} cog and ${against} the other way`,
      ),
    );
  const { overshot, shifts } = seen.shifts(past);
  if (overshot > 0)
    lines.push(
      sentence(`${figure(overshot)} of ${counted(shifts, 'shift')} to ${pastName} cogs ran past the cog asked for`),
    );
  return lines;
}

function limitTight(seen: Observed, cause: 'low-limit-tight' | 'high-limit-tight'): string[] {
  const place = causePlace(cause, seen) as CausePlace;
  const { from: cog, direction } = place;
  const teeth = seen.cassette[cog];
  const [onto, rest] = [shiftsAt(seen, place), shiftsBeside(seen, place)];
  const end = cog === 0 ? 'smallest' : 'largest';
  const few = onto.shifts < SAY_LITTLE && lateOrMissed(onto) === 0 ? ', which says little' : '';
  const lines = [
    sentence(
      `${share(onto, `onto the ${end} cog (${teeth})`)}${few}, ${beside(rest, `${direction.replace('-', ' ')} onto the others`)}`,
    ),
  ];
  const left = seen.ghosts(cog === 0 ? 'to-larger' : 'to-smaller', (other) => other === cog);
  if (left > 0) lines.push(sentence(`the chain left the ${teeth} by itself ${timesWords(left)}`));
  return lines;
}

/** "was lost"; "seems to have been lost" where none of those is sure. */
const wasLost = (seen: Observed, ...sides: readonly DropSide[]): string =>
  sides.some((side) => seen.sureDrops(side) > 0) ? 'was lost' : 'seems to have been lost';

/** "3 times"; "twice and perhaps once more" where some of those are not sure and others are. `anySure`: whether one is, past either end that is spoken of. */
function lostTimes(seen: Observed, side: DropSide, anySure = seen.sureDrops(side) > 0): string {
  const [all, sure] = [seen.drops(side), seen.sureDrops(side)];
  return anySure ? sureTimesWords(all, sure) : timesWords(all);
}

function limitLoose(seen: Observed, end: EndCog): string[] {
  const cog = endCog(`past-${end}`, seen.cassette.length);
  const teeth = seen.cassette[cog];
  const side = `past-${end}` as const;
  const drops = seen.drops(side);
  const asked = seen.commandedOnto(cog);
  const past = `past the ${end} cog`;
  const shifts = `in ${counted(asked, 'shift')} asked for onto the ${teeth}, judged or not`;
  const halts = haltsThatStandOut(seen, end, drops > 0 ? 'more shift' : 'shift');
  if (drops > 0)
    return [sentence(`the chain ${wasLost(seen, side)} ${past} ${lostTimes(seen, side)} ${shifts}`), ...halts];
  const plainly = halts.length > 0 ? 'plainly ' : '';
  return [
    sentence(`no chain was ${plainly}lost ${past} ${shifts}${asked < SAY_LITTLE ? ', which says little' : ''}`),
    ...halts,
  ];
}

/** Fewer halts on an end cog are chance. */
const HALTS_TOLD = 2;

/** Halts that follow the shifts onto an end cog more often than others of the same rider's. */
function haltsThatStandOut(seen: Observed, end: EndCog, shift: string): string[] {
  const { onto, elsewhere } = seen.promptHalts(end);
  if (onto.halts < HALTS_TOLD || onto.halts * elsewhere.shifts <= elsewhere.halts * onto.shifts) return [];
  return [
    sentence(
      `after ${figure(onto.halts)} of ${counted(onto.shifts, shift)} onto the ${seen.cassette[endCog(`past-${end}`, seen.cassette.length)]} the legs stopped within seconds and the bike halted, after ${figure(elsewhere.halts)} of ${figure(elsewhere.shifts)} onto other cogs that way: so it looks where a chain is lost and noticed at once, and where a stop was meant`,
    ),
  ];
}

function friction(seen: Observed): string[] {
  const lines = [bothDirections(seen, 'to-smaller')];
  if (seen.climbedAfterLarger > 0)
    lines.push(
      sentence(
        `after shifts to larger cogs the chain went by itself to a still larger one ${timesWords(seen.climbedAfterLarger)}, which a cable that sticks does not make it do`,
      ),
    );
  return lines;
}

function gapSmall(seen: Observed): string[] {
  const place = causePlace('pulley-gap-small', seen) as CausePlace;
  const there = shiftsAt(seen, place);
  const rest = shiftsBeside(seen, place);
  const { cassette } = seen;
  return [
    sentence(
      `${share(there, `to larger onto the ${place.to - place.from + 1} largest cogs, the ${cassette[place.from]} to the ${cassette[place.to]}${there.shifts > 0 ? ',' : ''}`)}, ${beside(rest, 'onto the others')}`,
    ),
  ];
}

function gapLarge(seen: Observed): string[] {
  const { late, missed } = seen.all;
  return [
    bothDirections(seen, 'to-larger'),
    sentence(`${figure(late)} late against ${figure(missed)} missed over the whole cassette`),
  ];
}

function hanger(seen: Observed): string[] {
  const half = Math.floor(seen.cassette.length / 2);
  const small = (cog: number): boolean => cog < half;
  const large = (cog: number): boolean => cog >= half;
  const line = (name: string, onto: (cog: number) => boolean): string => {
    const judged = directions.flatMap((direction) => {
      const shifts = seen.shifts(direction, onto);
      return shifts.shifts > 0 ? [beside(shifts, direction.replace('-', ' '))] : [];
    });
    const bad = judged.length > 0 ? `${judged.join(' and ')} were late or missed` : 'no shift was judged';
    return `on the ${name} cogs ${bad}`;
  };
  return [
    sentence(`${line('smaller half of the', small)}; ${line('larger half of the', large)}`),
    ...lostPastEnds(seen),
  ];
}

/** A bent hanger carries both limits along, so chains lost past the ends speak for it too. */
function lostPastEnds(seen: Observed): string[] {
  const anySure = seen.sureDrops('past-largest') + seen.sureDrops('past-smallest') > 0;
  const times = (end: EndCog): string[] =>
    seen.drops(`past-${end}`) > 0 ? [`past the ${end} cog ${lostTimes(seen, `past-${end}`, anySure)}`] : [];
  const lost = [...times('largest'), ...times('smallest')];
  if (lost.length === 0) return [];
  const both = lost.length > 1 ? ': a bent hanger carries both limits along' : '';
  return [sentence(`the chain ${wasLost(seen, 'past-largest', 'past-smallest')} ${listed(lost)}${both}`)];
}

/** "3 of them on the most used cog (18)"; where none was, which cogs it skipped on. */
function whereSkipped({ skips, cassette, pedallingShare }: Observed): string {
  const most = pedallingShare.indexOf(Math.max(...pedallingShare));
  const there = skips((cog) => cog === most);
  const onMost = (count: number | string): string => `${count} of them on the most used cog (${cassette[most]})`;
  if (there > 0) return onMost(there);
  return `${onMost('none')} but on the ${listed(cassette.filter((_, own) => skips((cog) => cog === own) > 0))}`;
}

/** Skips of the old parts are none of the new ones': where both were ridden, the hours are told with the part that was replaced. */
function worn(seen: Observed, partsReplaced: boolean): string[] {
  const skips = seen.skips();
  const hours = hoursOnKnownCogs(seen);
  if (skips === 0) return [sentence(`no skip under load was seen in ${hours}`)];
  const within = partsReplaced ? 'in all, on the old parts and the new' : `in ${hours}`;
  return [
    sentence(`the chain skipped ${timesWords(skips)} ${within}, ${whereSkipped(seen)}`),
    ...(seen.all.shifts > 0
      ? [sentence(`${figure(seen.all.trouble)} of ${counted(seen.all.shifts, 'judged shift')} went wrong`)]
      : []),
  ];
}

function noFault(seen: Observed): string[] {
  const { trouble, shifts } = seen.all;
  const rate = ` (${((100 * trouble) / shifts).toFixed(1)} %)`;
  const judged = `${figure(trouble)} of ${counted(shifts, 'judged shift')} ${wasWere(trouble, shifts)} late, missed or overshot${rate}`;
  const lines = [sentence(shifts === 0 ? 'no shift was judged' : judged)];
  const towards = seen.towardsCommand;
  const ghosts = seen.ghosts('to-larger') + seen.ghosts('to-smaller') + towards;
  const drops =
    seen.drops('past-largest') + seen.drops('past-smallest') + seen.drops('chainring') + seen.drops('unknown');
  const unasked = seen.watchesUnasked
    ? `${counted(ghosts, 'unasked shift')}${towards > 0 ? ` (${towards} of them towards a cog missed before)` : ''}, `
    : '';
  lines.push(
    sentence(
      `${unasked}${counted(drops, 'dropped chain')} and ${counted(seen.skips(), 'skip')} seen in ${hoursOnKnownCogs(seen)}`,
    ),
  );
  if (seen.weakShifts > 0)
    lines.push(
      sentence(
        `Of ${counted(seen.weakShifts, 'further shift')} only the rider's reaction is known, which is weak evidence and counts for little`,
      ),
    );
  return lines;
}

/** Their first sentence is something else than late and missed shifts in one place against those in another. */
const comparesNothing: readonly Cause[] = ['no-fault', 'low-limit-loose', 'high-limit-loose', 'worn-drivetrain'];

/**
 * What the rides show for or against a cause, in plain sentences with numbers. Where no shift was late or missed, all comparisons
 * would read 0 against 0: each cause then says the one same sentence instead. An end cog that was never asked for says nothing of its limit.
 *
 * @param partsReplaced chain or cassette were replaced between the rides
 */
export function evidenceSentences(cause: Cause, seen: Observed, partsReplaced = false): string[] {
  const end = endOfLimit(cause);
  const cog = end && endCog(end, seen.cassette.length);
  if (end !== null && cog !== null && seen.commandedOnto(cog) === 0 && seen.drops(end) === 0)
    return [`No shift onto the ${seen.cassette[cog]} was asked for: nothing is known of its limit.`];
  const [first, ...others] = sentencesFor(cause, seen, partsReplaced);
  if (lateOrMissed(seen.all) > 0 || comparesNothing.includes(cause)) return [first, ...others];
  return [noFault(seen)[0], ...(cause === 'pulley-gap-large' ? [] : others)];
}

function sentencesFor(cause: Cause, seen: Observed, partsReplaced: boolean): string[] {
  switch (cause) {
    case 'no-fault':
      return noFault(seen);
    case 'cable-tension-low':
      return tension(seen, true);
    case 'cable-tension-high':
      return tension(seen, false);
    case 'low-limit-tight':
      return limitTight(seen, cause);
    case 'low-limit-loose':
      return limitLoose(seen, 'largest');
    case 'high-limit-tight':
      return limitTight(seen, cause);
    case 'high-limit-loose':
      return limitLoose(seen, 'smallest');
    case 'pulley-gap-small':
      return gapSmall(seen);
    case 'pulley-gap-large':
      return gapLarge(seen);
    case 'hanger-bent':
      return hanger(seen);
    case 'cable-friction':
      return friction(seen);
    case 'worn-drivetrain':
      return worn(seen, partsReplaced);
  }
}
