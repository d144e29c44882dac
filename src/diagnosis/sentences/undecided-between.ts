import { causePhrase } from '../cause-words.ts';
import { type Cause, causes } from '../causes.ts';
import type { CauseVerdict, Undecided } from '../diagnosis.ts';
import { type VariedVerdict, varyAssumptions } from '../posterior/sensitivity.ts';
import type { WeighedCauses } from '../posterior/weigh-causes.ts';

/** Between which causes the verdict stands when an assumption is moved within its plausible range. */
export function undecidedBetween(
  weighed: WeighedCauses,
  probabilities: readonly number[],
  ranked: readonly CauseVerdict[],
  electronic: boolean,
): Undecided | null {
  const top = ranked[0].cause;
  const turned = varyAssumptions(weighed, probabilities).filter((varied) => varied.top !== top);
  if (turned.length === 0) return null;
  const rivals = ranked.map(({ cause }) => cause).filter((cause) => turned.some((varied) => varied.top === cause));
  const [at, rival] = [causes.indexOf(top), causes.indexOf(rivals[0])];
  const towardsRival = ({ probabilities: p }: VariedVerdict): number => Math.log(p[rival] / p[at]);
  const strongest = turned
    .filter((varied) => varied.top === rivals[0])
    .sort((one, other) => towardsRival(other) - towardsRival(one));
  const becauseOf = [...new Set(strongest.map(({ meaning }) => meaning))];
  const between: [Cause, Cause] = [top, rivals[0]];
  const [a, b] = between.map((cause) => causePhrase(cause, electronic));
  return {
    between,
    becauseOf,
    sentence: `Undecided between ${a} and ${b}: both fit these rides, and which of them fits better hangs on what nobody has measured.`,
  };
}
