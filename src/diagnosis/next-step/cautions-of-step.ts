import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { limitAt } from '../cassette-ends.ts';
import { lookAgainst } from './after-look.ts';
import type { Caution } from './caution.ts';
import { hangerIsDone } from './hanger-is-done.ts';
import { chainsLostElsewhere } from './lost-chain.ts';
import { newChainCautions } from './new-chain.ts';
import type { Step } from './step.ts';
import { stepCautions } from './step-cautions.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';

type Told = Pick<Step, 'cautions' | 'keepsOff'>;

/** All that is to be heeded with a step: its own cautions, with what to look for where a chain came off, the cogs to keep off, and a new chain. */
export function cautionsOfStep(step: Told, facts: SuggestionFacts): Caution[] {
  const own = hangerIsDone(facts) ? step.cautions.map(asTried) : step.cautions;
  const { drops } = facts;
  const looks = [
    ...(drops('past-largest') > 0 ? [stepCautions.intoSpokes] : []),
    ...(drops('past-smallest') > 0 ? [stepCautions.intoFrame] : []),
    ...(chainsLostElsewhere(facts) > 0 ? [stepCautions.cameOff] : []),
    ...keepOffCautions({ ...step, cautions: own }, facts),
  ].filter((caution) => !own.includes(caution));
  return eachDangerOnce([...looks, ...own, ...newChainCautions(facts.comparisons)]);
}

/** What is said of a hanger where it was seen to before a step that does not ask for it. */
const asTried = (caution: Caution): Caution =>
  caution === stepCautions.bentHanger ? stepCautions.hangerTried : caution;

/** Nobody rides onto a cog past which the chain was lost until something shows that it stays on, whatever else the step is about. */
function keepOffCautions({ keepsOff = [], cautions }: Told, facts: SuggestionFacts): Caution[] {
  const said = (end: CassetteEnd): boolean =>
    keepsOff.includes(end) || (end === 'past-largest' && cautions.some(({ kind }) => kind === 'bent-hanger'));
  const until = (end: CassetteEnd): string =>
    lookAgainst(limitAt[end].loose, facts)
      ? 'the chain stays on there on a stand'
      : 'its limit was looked at on a stand';
  return [...facts.now.keepOff]
    .filter((end) => !said(end))
    .map((end) => ({
      kind: 'keep-off',
      text: `Keep off the ${endWords[end]} cog until ${until(end)}: the chain was lost past it.`,
    }));
}

/** Cautions with each danger said once: one for a chain that went past both ends. */
function eachDangerOnce(cautions: readonly Caution[]): Caution[] {
  const both: readonly Caution[] = [stepCautions.intoSpokes, stepCautions.intoFrame];
  if (!both.every((one) => cautions.includes(one))) return [...new Set(cautions)];
  const first = cautions.findIndex((one) => both.includes(one));
  return [...new Set(cautions.map((one, i) => (i === first ? stepCautions.intoEither : one)))].filter(
    (one) => !both.includes(one),
  );
}
