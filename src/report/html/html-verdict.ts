import { parameterTitle } from '../../adjustments/parameter-words.ts';
import { chance } from '../../numeric/percent.ts';
import { causeBars } from '../chart-data/cause-bars.ts';
import { causeChartHeightPx, drawCauses } from '../charts/cause-chart.ts';
import { drawLateralError } from '../charts/lateral-error-chart.ts';
import type { Report } from '../report-schema.ts';
import { showsNothing, weighsNoShift } from '../shows-nothing.ts';
import { verdictTone } from '../verdict-kind.ts';
import { type CauseSection, causeSections } from '../words/cause-sections.ts';
import { cautionsByPlace } from '../words/cautions-by-place.ts';
import { furtherSentences } from '../words/further-sentences.ts';
import { ifOneFault } from '../words/if-one-fault.ts';
import { lateralSentence } from '../words/lateral-sentence.ts';
import { stepList } from '../words/step-list.ts';
import { stillThereSentence } from '../words/still-there-sentence.ts';
import { verdictSentence } from '../words/verdict-words.ts';
import { nowEvidence, titleOfCausesNow, undecidedSentence } from '../words/what-it-was.ts';
import { chartFigure } from './chart-figure.ts';
import { html, type Markup, type MarkupPart } from './markup.ts';

/** The verdict with its evidence. */
export function htmlVerdict(report: Report): Markup {
  const { diagnosis } = report;
  const now = [undecidedSentence(report), stillThereSentence(report)].filter((sentence) => sentence !== null);
  const speaksForIt = diagnosis.anotherSince ? [] : nowEvidence(report);
  const sentences = [...now, ...speaksForIt, ...furtherSentences(diagnosis)];
  return html`<section>
<h2>Verdict</h2>
<p class="verdict ${verdictTone(report)}">${verdictSentence(report)}</p>
${sentences.map((sentence) => html`<p>${sentence}</p>\n`)}
${causeSections(report).map(causeSection)}
</section>`;
}

/** The charts of what the verdict was drawn from: below the next step, since that is what is read first. Null where there is none. */
export function htmlWeighed(report: Report): Markup | null {
  const figures = [causeFigure(report), lateralFigure(report)].filter((figure) => figure !== null);
  return figures.length === 0
    ? null
    : html`<section>
<h2>What was weighed</h2>
${figures}
</section>`;
}

const causeSection = ({ title, causes }: CauseSection): MarkupPart => [
  title !== null && html`<h3>${title}</h3>\n`,
  causes.map(
    ({ chance, name, evidence }) => html`<h3>${chance} ${name}</h3>
${evidence.length > 0 ? html`<ul>${evidence.map((sentence) => html`<li>${sentence}</li>`)}</ul>` : null}
`,
  ),
];

/** What to do next, with the cautions: before it where something can hurt who rides on. */
export function htmlNextStep({ diagnosis }: Report): Markup {
  const { suggestion, checkRide } = diagnosis;
  const about =
    suggestion.parameter === 'none' ? null : html`<strong>${parameterTitle(suggestion.parameter)}</strong>: `;
  const { steps, start } = stepList(suggestion);
  const { mind, first, follows } = cautionsByPlace(suggestion);
  const cautions = html`<div class="cautions"><h3>Cautions</h3><ul>${mind.map(({ text }) => html`<li>${text}</li>`)}</ul></div>
`;
  return html`<section>
<h2>Next step</h2>
${first ? cautions : null}${steps.length === 1 ? html`<p>${about}${steps[0]}</p>` : html`<p>${about}</p><ol>${steps.map((step) => html`<li>${step}</li>`)}</ol>`}
${start === null ? null : html`<p>Begin: ${start}</p>`}
${follows && html`<p>${follows.when}: ${follows.what}</p>`}
<p>Then check: ${suggestion.verify}</p>
${
  checkRide.sentences.length > 0
    ? html`<h3>A ride that would tell more</h3><ul>${checkRide.sentences.map((line) => html`<li>${line}</li>`)}</ul>`
    : null
}
${first ? null : cautions}</section>`;
}

function causeFigure(report: Report): Markup | null {
  if (report.diagnosis.weighed.rides === 0) return null;
  const bars = causeBars(report);
  const sum = 'The probabilities of all causes sum to 100 %.';
  return chartFigure(
    titleOfCausesNow(report, `How likely each cause is${ifOneFault(report)}`),
    showsNothing(report)
      ? `Mostly what is taken for granted before any ride, since no shift could be judged. ${sum}`
      : `Likeliest: ${bars[0].name}, ${chance(bars[0].probability)}. ${sum}`,
    causeChartHeightPx(bars.length),
    (svg, size) => drawCauses(svg, bars, size),
  );
}

function lateralFigure(report: Report): Markup | null {
  const { diagnosis } = report;
  if (weighsNoShift(report)) return null;
  const errors = diagnosis.lateralErrorMm;
  if (errors.length === 0) return null;
  return chartFigure(
    'Where the guide pulley is thought to stand',
    lateralSentence(diagnosis.lateralOffsetMm),
    280,
    (svg, size) => drawLateralError(svg, errors, size),
  );
}
