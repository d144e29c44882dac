import { causePhrase } from '../cause-words.ts';
import { causes } from '../causes.ts';
import type { CauseVerdict, Undecided } from '../diagnosis.ts';
import type { Observed } from '../observed.ts';
import type { CauseProbabilities } from '../posterior/posterior.ts';
import { likeliest, type VariedVerdict, varyAssumptions } from '../posterior/sensitivity.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';
import { type SpoiledShares, withSpoiled } from '../posterior/with-spoiled.ts';
import { faultForSure } from '../unexplained/fault-for-sure.ts';
import type { PlainTrouble } from '../unexplained/plain-trouble.ts';

/** What the sentence hangs on. */
interface Known {
  readonly seen: Observed;
  readonly electronic: boolean;
  /** Shifts that plainly fail, as they do on no bike in order: then it is open at most between faults. */
  readonly failsPlainly: PlainTrouble | null;
  /** Whether a bent hanger may stand behind the low limit that is named: then neither is spoken of alone. */
  readonly limitOrHanger: boolean;
  /** Bikes in order that a wrong turn has put out. */
  readonly spoiled: SpoiledShares;
}

/** The two together, where a chain was lost past the largest cog and nothing tells them apart. */
const LIMIT_OR_HANGER = 'a fault of low limit or hanger';

/** Between which causes the verdict stands when an assumption is moved within its plausible range. */
export function undecidedBetween(
  weighed: WeighedCauses,
  probabilities: CauseProbabilities,
  ranked: readonly CauseVerdict[],
  { seen, electronic, failsPlainly, limitOrHanger, spoiled }: Known,
): Undecided | null {
  const top = ranked[0].cause;
  const turned = varyAssumptions(weighed, probabilities)
    .map((varied) => ({ ...varied, probabilities: withSpoiled(varied.probabilities, spoiled) }))
    .map((varied) => ({ ...varied, top: likeliest(faultForSure(varied.probabilities, failsPlainly, seen)) }))
    .filter((varied) => varied.top !== top);
  const rival = ranked.map(({ cause }) => cause).find((cause) => turned.some((varied) => varied.top === cause));
  if (!rival) return null;
  const towardsRival = ({ probabilities: p }: VariedVerdict): number =>
    Math.log(p[causes.indexOf(rival)] / p[causes.indexOf(top)]);
  const strongest = turned
    .filter((varied) => varied.top === rival)
    .sort((one, other) => towardsRival(other) - towardsRival(one));
  const both = limitOrHanger && rival !== 'hanger-bent';
  const a = both ? LIMIT_OR_HANGER : causePhrase(top, electronic);
  return {
    between: [top, rival],
    becauseOf: [...new Set(strongest.map(({ meaning }) => meaning))],
    sentence: `Undecided between ${a} and ${causePhrase(rival, electronic)}: both fit these rides, and which of them fits better hangs on what nobody has measured.`,
  };
}
