import type { OutcomeProbability } from '../ride-events.ts';

/** A Bayes factor nearer to 1 than this is "not worth more than a bare mention" (Kass and Raftery 1995). */
const BARE_MENTION = 3;

/**
 * True where the records about a shift hardly tell clean from trouble: what is likely of it is what was expected before, and not what was
 * seen.
 *
 * @param probability of each outcome, given the records
 * @param expected the same before them
 */
export function saysLittle(probability: OutcomeProbability, expected: OutcomeProbability): boolean {
  const bayesFactor = odds(probability.clean) / odds(expected.clean);
  return bayesFactor < BARE_MENTION && bayesFactor > 1 / BARE_MENTION;
}

const odds = (chance: number): number => chance / (1 - chance);
