import { causeWords } from '../../diagnosis/cause-words.ts';
import { EXPLAINED_FROM } from '../../diagnosis/verdict-limits.ts';
import { chance, percent } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import { showsNothing } from '../shows-nothing.ts';
import { whichCauses } from '../which-causes.ts';
import { ifOneFault } from './if-one-fault.ts';

/** Below this a cause is hardly possible. */
const HARDLY = 0.005;

/** The causes that are not worth explaining, with their probabilities, in a sentence; null without any, and where no ride was weighed. */
export function otherCauses(report: Report, explained: Report['diagnosis']['causes']): string | null {
  const { causes, weighed } = report.diagnosis;
  const told = new Set(explained.map(({ cause }) => cause));
  const rest = causes.filter(({ cause }) => !told.has(cause));
  if (rest.length === 0 || weighed.rides === 0 || report.diagnosis.heldBack) return null;
  const said = showsNothing(report)
    ? 'How likely each is, mostly by what is taken for granted before any ride'
    : whichCauses(report.diagnosis).atFirst
      ? `Weighed by ${report.diagnosis.firstUntil ? 'the rides before' : 'all rides together'}, as one fault that was there at first`
      : `Also weighed${ifOneFault(report)}`;
  return `${said}: ${inShort(rest, report)}.`;
}

/** Each with its probability; several that are not worth a word of their own in one, unless nothing else is told of any. */
function inShort(causes: Report['diagnosis']['causes'], report: Report): string {
  const { bike } = report;
  const below = showsNothing(report) ? HARDLY : EXPLAINED_FROM;
  const hardly = causes.filter(({ probability }) => probability < below);
  const short = hardly.length > 1 ? hardly : [];
  const named = causes
    .filter((one) => !short.includes(one))
    .map(({ cause, probability }) => `${causeWords(cause, bike.actuation).name} (${chance(probability)})`);
  return [...named, ...(short.length > 0 ? [`all others under ${percent(below)}`] : [])].join(', ');
}
