import { EXPLAINED_FROM } from '../../diagnosis/verdict-limits.ts';
import type { Report } from '../report-schema.ts';
import { showsNothing } from '../shows-nothing.ts';
import { wasOneCause } from '../verdict-kind.ts';

/**
 * The causes worth explaining, likeliest first, each with the evidence not said above it: one that has none is named with its
 * probability among the others (`otherCauses`). None where the rides show nothing.
 */
export function explainedCauses(report: Report): Report['diagnosis']['causes'] {
  if (showsNothing(report)) return [];
  // what nobody can name was not what is wrong now: the probabilities will do
  if (report.diagnosis.now.setting === 'overdone') return wasOneCause(report) ? [report.diagnosis.causes[0]] : [];
  return explained(report.diagnosis.causes).filter(({ evidence }, i) => i === 0 || evidence.length > 0);
}

/** The causes that the rides since the last adjustment alone are worth explaining by, each with its evidence; none where they name no other fault than all rides do. */
export const explainedSince = ({
  diagnosis: { anotherSince },
}: Pick<Report, 'diagnosis'>): Report['diagnosis']['causes'] => (anotherSince ? explained(anotherSince.causes) : []);

/** The same of a fault that came after the first and was cured too. */
export const explainedLater = ({
  diagnosis: { laterCured },
}: Pick<Report, 'diagnosis'>): Report['diagnosis']['causes'] => (laterCured ? explained(laterCured.causes) : []);

function explained(causes: Report['diagnosis']['causes']): Report['diagnosis']['causes'] {
  const said = new Set<string>();
  return causes
    .filter(({ probability }, i) => i === 0 || probability >= EXPLAINED_FROM)
    .map((verdict) => {
      const evidence = verdict.evidence.filter((sentence) => !said.has(sentence));
      for (const sentence of evidence) said.add(sentence);
      return { ...verdict, evidence };
    });
}
