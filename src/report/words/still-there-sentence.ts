import { LIKELY_ENOUGH } from '../../diagnosis/verdict-limits.ts';
import { chance } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import { wasOneCause } from '../verdict-kind.ts';
import { triedWords } from './verdict-words.ts';

/**
 * Whether the fault outlived the last adjustment; null where nothing is at fault, nothing was adjusted, or no shift was judged
 * since, or none onto the cog that would tell: then nobody knows. Null too where it is open what was cured. Null too where the newest rides shift well: it is gone, whatever the adjustment did; and where it went too far,
 * which the verdict says, as it does where the rides since name another fault.
 */
export function stillThereSentence({
  adjustments,
  diagnosis,
}: Pick<Report, 'adjustments' | 'diagnosis'>): string | null {
  const since = adjustments.at(-1)?.after.shifts ?? 0;
  if (
    since === 0 ||
    diagnosis.shiftsWellSince ||
    diagnosis.now.setting === 'overdone' ||
    diagnosis.now.setting === 'another' ||
    diagnosis.now.setting === 'untested' ||
    (diagnosis.cured && !wasOneCause({ diagnosis })) ||
    diagnosis.causes[0].cause === 'no-fault'
  )
    return null;
  if (diagnosis.now.setting === 'same' && diagnosis.stillThere < LIKELY_ENOUGH)
    return `By what was adjusted it should be gone (still there: ${chance(diagnosis.stillThere)}), yet shifts since fail as they did. Another fault may do the same, or less was turned than was logged.`;
  return `After the last adjustment it is still there with a probability of ${chance(diagnosis.stillThere)}${triedWords(diagnosis.now)}.`;
}
