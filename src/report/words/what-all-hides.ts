import { cameBackWords, growthWords, oppositeWords } from '../../adjustments/hidden-words.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { AdjustmentReport } from '../adjustment-report-schema.ts';
import { rateWithInterval } from './number-words.ts';

/** What moves the guide pulley against every cog alike. */
export const indexing: readonly string[] = ['cable-tension', 'index-offset'];

type Told = Pick<AdjustmentReport, 'parameter' | 'before' | 'cameBack' | 'wentOnGrowing' | 'oppositeWays'>;

/**
 * What became of an adjustment where before and after by all shifts would hide it; null where they do not.
 *
 * @param it what is judged: "it", or "together they"
 */
export function whatAllHides(
  { parameter, before, cameBack, wentOnGrowing, oppositeWays }: Told,
  it: string,
): string | null {
  if (cameBack)
    return `${upperFirst(it)} helped at first: before, trouble was ${rateWithInterval(before)}; then ${cameBackWords(cameBack)}.`;
  if (wentOnGrowing) return `Nothing shows that ${it} changed anything: ${growthWords(wentOnGrowing)}.`;
  if (!oppositeWays) return null;
  const told = `${upperFirst(it)} went two ways: ${oppositeWords(oppositeWays)}.`;
  return oppositeWays.noneCuresBoth && indexing.includes(parameter)
    ? `${told} No setting of it cures both, as with a bent hanger.`
    : told;
}
