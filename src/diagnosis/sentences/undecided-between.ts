import { upperFirst } from '../../numeric/upper-first.ts';
import type { Direction } from '../../shifts/ride-events.ts';
import { causePlace } from '../cause-place.ts';
import { causePhrase } from '../cause-words.ts';
import { type Cause, causes } from '../causes.ts';
import type { CauseVerdict, Undecided } from '../diagnosis.ts';
import type { Observed } from '../observed.ts';
import type { CauseProbabilities } from '../posterior/posterior.ts';
import { likeliest, type VariedVerdict, varyAssumptions } from '../posterior/sensitivity.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import { failingOneWay } from '../unexplained/one-way-trouble.ts';

/** The likeliest cause; only a fault counts where something is at fault for sure. */
const topOf = (probabilities: CauseProbabilities, surelyFault: boolean): Cause =>
  likeliest(surelyFault ? probabilities.map((p, i) => (causes[i] === 'no-fault' ? 0 : p)) : probabilities);

/** What the sentence hangs on. */
interface Known {
  readonly seen: Observed;
  readonly electronic: boolean;
  /** Direction in which shifts plainly fail (`oneWayTrouble`), as they do on no bike in order: then it is open at most between faults. */
  readonly failsOneWay: Direction | null;
}

/**
 * Between which causes the verdict stands when an assumption is moved within its plausible range; or between faults, where none of them is
 * likelier than no fault though something is at fault for sure.
 */
export function undecidedBetween(
  weighed: WeighedCauses,
  probabilities: CauseProbabilities,
  ranked: readonly CauseVerdict[],
  { seen, electronic, failsOneWay }: Known,
): Undecided | null {
  const top = ranked[0].cause;
  if (failsOneWay && top === 'no-fault') return betweenFaults(failsOneWay, ranked, seen, electronic);
  const turned = varyAssumptions(weighed, probabilities)
    .map((varied) => ({ ...varied, top: topOf(varied.probabilities, failsOneWay !== null) }))
    .filter((varied) => varied.top !== top);
  const rival = ranked.map(({ cause }) => cause).find((cause) => turned.some((varied) => varied.top === cause));
  if (!rival) return null;
  const towardsRival = ({ probabilities: p }: VariedVerdict): number =>
    Math.log(p[causes.indexOf(rival)] / p[causes.indexOf(top)]);
  const strongest = turned
    .filter((varied) => varied.top === rival)
    .sort((one, other) => towardsRival(other) - towardsRival(one));
  const [a, b] = [top, rival].map((cause) => causePhrase(cause, electronic));
  return {
    between: [top, rival],
    becauseOf: [...new Set(strongest.map(({ meaning }) => meaning))],
    sentence: `Undecided between ${a} and ${b}: both fit these rides, and which of them fits better hangs on what nobody has measured.`,
  };
}

/** The two likeliest faults that show in the direction that plainly fails. */
function betweenFaults(
  failsOneWay: Direction,
  ranked: readonly CauseVerdict[],
  seen: Observed,
  electronic: boolean,
): Undecided {
  const [likelier, other] = ranked
    .map(({ cause }) => cause)
    .filter((cause) => causePlace(cause, seen)?.direction === failsOneWay);
  const [a, b] = [likelier, other].map((cause) => causePhrase(cause, electronic));
  return {
    between: [likelier, other],
    becauseOf: [],
    sentence: `${upperFirst(failingOneWay(failsOneWay))}, so something is at fault; undecided whether it is ${a} or ${b}.`,
  };
}
