import { type CassetteEnd, cassetteEnds, endCog } from '../../adjustments/end-cog-count.ts';
import { listed } from '../../numeric/listed.ts';
import { limitAt } from '../cassette-ends.ts';
import { SAY_LITTLE } from '../fewest-shifts.ts';
import { awaitedProof, awaitedSentence } from '../now/awaited-proof.ts';
import { lookAgainst } from './after-look.ts';
import { KEEP_RECORDING } from './step.ts';
import type { SuggestionFacts } from './suggestion-facts.ts';
import { keepRecording, type LeftToDo } from './turn-nothing.ts';

type Tried = Pick<SuggestionFacts, 'seen' | 'foundRight' | 'now' | 'comparisons'>;

/** Judged shifts onto the cog at an end. */
function ontoEnd(end: CassetteEnd, { seen }: Tried): { readonly teeth: number; readonly shifts: number } {
  const cog = endCog(end, seen.cassette.length);
  const { shifts } = seen.shifts(end === 'past-largest' ? 'to-larger' : 'to-smaller', (onto) => onto === cog);
  return { teeth: seen.cassette[cog], shifts };
}

/**
 * What is left to do where nothing is the matter: to ride on, and where an end cog was hardly used, to shift onto it on purpose, which costs
 * nothing; or where what was done last has no answer yet, to make the shifts that it still needs, one thing at a time. Not where its limit was looked at, nor where the chain is to be kept off it.
 */
export function tryEndCogs(facts: Tried): LeftToDo {
  const awaited = awaitedProof(facts.comparisons);
  if (awaited) return { verify: `${KEEP_RECORDING} ${awaitedSentence(awaited)}`, asks: 'shifts' };
  const few = cassetteEnds
    .filter((end) => !facts.now.keepOff.has(end) && !lookAgainst(limitAt[end].loose, facts))
    .map((end) => ontoEnd(end, facts))
    .filter(({ shifts }) => shifts < SAY_LITTLE);
  if (few.length === 0) return keepRecording;
  const cogs = listed(few.map(({ teeth }) => `the ${teeth}`));
  const verify = `${KEEP_RECORDING} To know more of ${cogs}, hardly shifted onto so far, make ten soft shifts onto ${few.length > 1 ? 'each' : 'it'} on the next ride, away from traffic, once you have seen on a stand that the chain stays on there.`;
  return { verify, asks: 'shifts' };
}
