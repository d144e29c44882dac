import { parameterTitle } from '../../adjustments/parameter-words.ts';
import type { Report } from '../report-schema.ts';
import { verdictTone } from '../verdict-kind.ts';
import { causeSections } from '../words/cause-sections.ts';
import { cautionsByPlace } from '../words/cautions-by-place.ts';
import { explainedCauses } from '../words/explained-causes.ts';
import { furtherSentences } from '../words/further-sentences.ts';
import { nothingToDo } from '../words/nothing-to-do.ts';
import { otherCauses } from '../words/other-causes.ts';
import { stepList } from '../words/step-list.ts';
import { stillThereSentence } from '../words/still-there-sentence.ts';
import { verdictSentence } from '../words/verdict-words.ts';
import { nowEvidence, undecidedSentence } from '../words/what-it-was.ts';
import type { TextPage } from './text-page.ts';

/** The verdict with its evidence. */
export function textVerdict(page: TextPage, report: Report): void {
  const { diagnosis } = report;
  page.heading('Verdict');
  page.emphasised(verdictSentence(report), page.style[verdictTone(report)]);
  const undecided = undecidedSentence(report);
  if (undecided) page.paragraph(undecided);
  const stillThere = stillThereSentence(report);
  if (stillThere) page.paragraph(stillThere);
  if (!diagnosis.anotherSince) for (const sentence of nowEvidence(report)) page.bullet(sentence);
  for (const { title, causes } of causeSections(report)) {
    if (title !== null) page.subheading(title);
    for (const { chance, name, evidence } of causes) {
      page.subheading(`${chance}  ${name}`);
      for (const sentence of evidence) page.bullet(sentence);
    }
  }
  const others = otherCauses(report, explainedCauses(report));
  if (others) {
    page.blank();
    page.paragraph(others);
  }
  const further = furtherSentences(diagnosis);
  if (further.length > 0) page.blank();
  for (const sentence of further) page.paragraph(sentence);
}

/**
 * What to do next, how to begin, what follows, how to check, and the cautions that go with it: before it where something can hurt who rides on, else
 * after it; those of work only where there is any.
 */
export function textNextStep(page: TextPage, report: Report): void {
  const { first } = cautionsByPlace(report.diagnosis.suggestion);
  if (first) textCautions(page, report);
  textStep(page, report);
  if (!first) textCautions(page, report);
}

function textStep(page: TextPage, { diagnosis: { suggestion, checkRide } }: Report): void {
  page.heading('Next step');
  const about = suggestion.parameter === 'none' ? '' : `${parameterTitle(suggestion.parameter)}:`;
  const { steps, start } = stepList(suggestion);
  if (steps.length === 1) page.paragraph(`${about} ${steps[0]}`.trim());
  else {
    if (about) page.paragraph(about);
    steps.forEach((step, i) => {
      page.bullet(step, `${i + 1}.`);
    });
  }
  const { follows } = cautionsByPlace(suggestion);
  if (start !== null) page.bullet(`Begin: ${start}`);
  if (follows) page.bullet(`${follows.when}: ${follows.what}`);
  page.bullet(`Then check: ${suggestion.verify}`);
  if (checkRide.sentences.length > 0) {
    page.subheading('A ride that would tell more');
    for (const sentence of checkRide.sentences) page.bullet(sentence);
  }
}

function textCautions(page: TextPage, { diagnosis }: Report): void {
  page.heading('Cautions');
  const idle = nothingToDo(diagnosis);
  for (const { kind, text } of cautionsByPlace(diagnosis.suggestion).mind)
    if (!idle || kind !== 'by-hand') page.bullet(text, '!');
}
