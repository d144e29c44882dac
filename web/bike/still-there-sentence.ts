import { chance } from '../../src/numeric/percent.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { wasOneCause } from '../../src/report/verdict-kind.ts';
import { triedWords } from '../../src/report/words/verdict-words.ts';

/**
 * Whether the fault outlived the last adjustment; null where nothing is at fault, nothing was adjusted, or no shift was judged
 * since, or none onto the cog that would tell: then nobody knows. Null too where it is open what was cured. Null too where the newest rides shift well: it is gone, whatever the adjustment did; and where it went too far,
 * which the verdict says.
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
    diagnosis.now.setting === 'untested' ||
    (diagnosis.cured && !wasOneCause({ diagnosis })) ||
    diagnosis.causes[0].cause === 'no-fault'
  )
    return null;
  const { trial } = diagnosis.now;
  const tried = trial ? `: ${triedWords(trial)}` : '';
  return `After the last adjustment it is still there with a probability of ${chance(diagnosis.stillThere)}${tried}.`;
}
