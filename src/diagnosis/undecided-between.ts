import { causePhrase } from './cause-words.ts';
import type { Cause } from './causes.ts';
import type { CauseVerdict, Undecided } from './diagnosis.ts';
import { varyAssumptions } from './sensitivity.ts';
import type { WeighedCauses } from './weigh-causes.ts';

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
  const becauseOf = [...new Set(turned.filter((varied) => varied.top === rivals[0]).map(({ meaning }) => meaning))];
  const between: [Cause, Cause] = [top, rivals[0]];
  const [a, b] = between.map((cause) => causePhrase(cause, electronic));
  return {
    between,
    becauseOf,
    sentence: `Undecided between ${a} and ${b}: the verdict hangs on ${becauseOf.join(', and on ')}.`,
  };
}
