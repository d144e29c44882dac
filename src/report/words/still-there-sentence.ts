import { helpedForSure } from '../../adjustments/helped-for-sure.ts';
import { awaitedProof } from '../../diagnosis/now/awaited-proof.ts';
import { touchesCause } from '../../diagnosis/now/goes-against.ts';
import { oneWayCured, wayCounts, wayWords } from '../../diagnosis/now/one-way-cured.ts';
import { whatWasDone } from '../../diagnosis/now/what-was-done.ts';
import { LIKELY_ENOUGH } from '../../diagnosis/verdict-limits.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { utcMoment } from '../../numeric/moment-words.ts';
import { chance } from '../../numeric/percent.ts';
import type { Report } from '../report-schema.ts';
import { standingAdjustments } from '../standing-adjustments.ts';
import { type Verdict, verdictOf, wasOneCause } from '../verdict-kind.ts';
import { helpedAnother, wrongBeforeAndSince } from './helped-sentence.ts';
import { betterSinceLast, triedWords } from './unsettled-words.ts';

/** Verdicts that say themselves whether it is cured, or that nobody knows yet; under an open one nobody knows what "it" would be. */
const ANSWERED_BY_VERDICT: ReadonlySet<Verdict['kind']> = new Set(['cured', 'unsettled', 'open']);

/**
 * Whether the fault outlived the last adjustment; null where nothing is at fault, nothing was adjusted, or no shift was judged
 * since, or none onto the cog that would tell: then nobody knows. Null too where it is open what was cured, and where it got better for sure, which the
 * verdict says, or what was done last is still to be proved. Null too where the newest rides shift well: it is gone, whatever the adjustment did; and where it
 * went too far, which the verdict says, as it does where the rides since name another fault. Null as well where the part was found right and that look
 * stands, where what was done last helped another fault, and where the verdict answers it: a report has one answer to whether it is cured.
 */
export function stillThereSentence({
  adjustments,
  diagnosis,
}: Pick<Report, 'adjustments' | 'diagnosis'>): string | null {
  const since = standingAdjustments({ adjustments }).at(-1)?.after.shifts ?? 0;
  if (
    since === 0 ||
    diagnosis.shiftsWellSince ||
    diagnosis.now.setting === 'overdone' ||
    diagnosis.now.setting === 'another' ||
    diagnosis.now.setting === 'untested' ||
    betterSinceLast({ adjustments, diagnosis }) ||
    (diagnosis.now.setting === 'unsettled' && awaitedProof(adjustments)) ||
    (diagnosis.cured && !wasOneCause({ diagnosis })) ||
    diagnosis.causes[0].cause === 'no-fault' ||
    diagnosis.now.foundRight ||
    helpedAnother({ adjustments, diagnosis }) !== '' ||
    ANSWERED_BY_VERDICT.has(verdictOf({ adjustments, diagnosis }).kind)
  )
    return null;
  const back = cameBackSentence({ adjustments, diagnosis });
  if (back) return back;
  if (diagnosis.now.setting === 'same' && diagnosis.stillThere < LIKELY_ENOUGH)
    return shouldBeGone({ adjustments, diagnosis });
  return `After the last adjustment it is still there with a probability of ${chance(diagnosis.stillThere)}${triedWords(diagnosis.now)}.`;
}

/** Of a fault that was gone for a while after what was done last: until when and since when. Null of any other. */
function cameBackSentence({ adjustments, diagnosis }: Pick<Report, 'adjustments' | 'diagnosis'>): string | null {
  const made = standingAdjustments({ adjustments });
  const last = made.at(-1);
  if (!last?.cameBack || !touchesCause(diagnosis.causes[0].cause, last)) return null;
  const { at, until, since } = last.cameBack;
  const wrong = ({ trouble, shifts }: typeof until): string => `${figure(trouble)} of ${counted(shifts, 'shift')}`;
  return `It was gone after ${whatWasDone(made, last)}, when ${wrong(until)} went wrong, and is back since the ride of ${utcMoment(at)}: ${wrong(since)}.`;
}

/** Of what was adjusted last, what is told of a fault that should be gone by it and is not: whether it fails as it did, or less often. */
function shouldBeGone({ adjustments, diagnosis }: Pick<Report, 'adjustments' | 'diagnosis'>): string {
  const made = standingAdjustments({ adjustments }).filter(({ at }) => at === diagnosis.now.since.at);
  const halves = made.map(oneWayCured).find((one) => one !== null);
  if (halves) {
    const { cured, failing } = halves;
    return `By what was adjusted it should most likely be gone, and of shifts ${wayWords(cured)} it is (${wayCounts(cured)}). Those ${wayWords(failing)} still fail (${wayCounts(failing)}): a part of it is left, or another fault does that.`;
  }
  const helped = made.find(helpedForSure);
  if (!helped)
    return 'By what was adjusted it should most likely be gone, yet shifts since fail as they did. Another fault may do the same, or less was turned than was logged.';
  return `What was done last helped (${wrongBeforeAndSince(helped)}), but it is not gone: a part of it is left, or another fault does the same.`;
}
