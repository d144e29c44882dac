import { causeWords } from '../../diagnosis/cause-words.ts';
import { counted } from '../../numeric/counted.ts';
import { percent } from '../../numeric/percent.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { LostChain } from './lost-chains.ts';
import type { StateSigns } from './state-signs.ts';

/** Probability of a bent hanger, on which a derailleur can reach the spokes, that is worth a warning. An assumption. */
const BENT_HANGER_FROM = 0.5;

/** What can hurt on a bike, a sentence each, with what to do before riding: to be said whatever its state is. */
export function stateDangers({
  actuation,
  topFault,
  cured,
  enough,
  leftTheCassette,
  cameOffElsewhere,
}: StateSigns): string[] {
  const dangers: string[] = [];
  if (leftTheCassette.sure > 0)
    dangers.push(`The chain left the cassette ${timesInWords(leftTheCassette)}: inspect before riding.`);
  if (cameOffElsewhere.sure > 0)
    dangers.push(
      `The chain came off the chainring, or nobody knows where, ${timesInWords(cameOffElsewhere)}: look over chain, chainring and chain guide before riding.`,
    );
  if (enough && !cured && topFault?.cause === 'hanger-bent' && topFault.probability >= BENT_HANGER_FROM)
    dangers.push(
      `${upperFirst(causeWords('hanger-bent', actuation).name)} (${percent(topFault.probability)}): the derailleur can reach the spokes. Keep off the largest cog until it is checked.`,
    );
  return dangers;
}

const timesInWords = ({ sure, unsure, since }: LostChain): string =>
  `${counted(sure, 'time')}${since}${unsure > 0 ? ` (and perhaps ${counted(unsure, 'time')} more)` : ''}`;
