import { causeWords } from '../../diagnosis/cause-words.ts';
import type { Cause } from '../../diagnosis/causes.ts';
import { counted } from '../../numeric/counted.ts';
import { percent } from '../../numeric/percent.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { LostChain } from './lost-chains.ts';
import type { StateSigns } from './state-signs.ts';
import type { UnprovenEnd } from './unproven-ends.ts';

/** Probability of a dangerous fault that is worth a warning. An assumption. */
const DANGEROUS_FROM = 0.5;

/** Faults that can hurt before anything has happened: what they can do, and what to keep off until when. */
const dangerous: Partial<Record<Cause, string>> = {
  'hanger-bent': 'the derailleur can reach the spokes. Keep off the largest cog until it is checked.',
  'low-limit-loose':
    'the chain can go into the spokes. Keep off the largest cog until the screw is set and was tried on a stand.',
  'high-limit-loose':
    'the chain can jam at the frame. Keep off the smallest cog until the screw is set and was tried on a stand.',
};

/** What can hurt on a bike, a sentence each, with what to do before riding: to be said whatever its state is. */
export function stateDangers(signs: StateSigns): string[] {
  const { leftTheCassette, cameOffElsewhere, unproven } = signs;
  const dangers: string[] = [];
  if (leftTheCassette.sure > 0)
    dangers.push(`The chain left the cassette ${timesInWords(leftTheCassette)}: inspect before riding.`);
  dangers.push(...unproven.map((end) => unprovenInWords(end, signs)));
  if (cameOffElsewhere.sure > 0)
    dangers.push(
      `The chain came off the chainring, or nobody knows where, ${timesInWords(cameOffElsewhere)}: look over chain, chainring and chain guide before riding.`,
    );
  return [...dangers, ...dangerousFault(signs)];
}

/** The fault that is likeliest now, where it can hurt. */
function dangerousFault({ actuation, topFault, overdone, cured, enough }: StateSigns): string[] {
  const fault = overdone ?? topFault;
  const words = fault && dangerous[fault.cause];
  if (!enough || cured || !words || fault.probability < DANGEROUS_FROM) return [];
  return [`${upperFirst(causeWords(fault.cause, actuation).name)} (${percent(fault.probability)}): ${words}`];
}

function unprovenInWords({ end, teeth, times, shiftsSince }: UnprovenEnd, { lookedOver }: StateSigns): string {
  const until = lookedOver.includes(end)
    ? 'the chain stays on there on a stand'
    : 'its limit and the hanger were looked at on a stand';
  return `The chain left the cassette past the ${teeth} before the last adjustment (${counted(times, 'time')}), and ${shiftsSince === 0 ? 'no shift' : `only ${counted(shiftsSince, 'clean shift')}`} onto it since shows that it stays on: inspect before riding, and keep off the ${teeth} until ${until}.`;
}

const timesInWords = ({ sure, unsure, since }: LostChain): string =>
  `${counted(sure, 'time')}${since}${unsure > 0 ? ` (and perhaps ${counted(unsure, 'time')} more)` : ''}`;
