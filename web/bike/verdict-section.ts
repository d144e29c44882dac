import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { chance } from '../../src/numeric/percent.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import { showsNothing } from '../../src/report/shows-nothing.ts';
import { verdictOf, wasOneCause } from '../../src/report/verdict-kind.ts';
import { whichCauses } from '../../src/report/which-causes.ts';
import { SINCE_ALONE } from '../../src/report/words/another-fault.ts';
import { helpedAnother } from '../../src/report/words/helped-sentence.ts';
import { ifOneFault } from '../../src/report/words/if-one-fault.ts';
import { stillThereSentence } from '../../src/report/words/still-there-sentence.ts';
import { explainedSentence, soundSentence, verdictSentence } from '../../src/report/words/verdict-words.ts';
import {
  causesTitle,
  LATER_CURED,
  nowEvidence,
  undecidedSentence,
  wasOnce,
} from '../../src/report/words/what-it-was.ts';
import type { BikeDetail } from '../api/answers.ts';
import { type Child, make } from '../dom/make.ts';
import { points } from '../page/points.ts';
import { stateMark } from '../page/state-mark.ts';
import { inOwnZone } from '../words/dates.ts';
import { standingKey, standingOf, stateLabel } from '../words/state-words.ts';
import type { BikePage } from './bike-page.ts';
import { causeList } from './cause-list.ts';
import { namedCause } from './named-cause.ts';
import { nextStep } from './next-step.ts';
import { troubleSentence } from './trouble-sentence.ts';
import { verdictHeadline } from './verdict-headline.ts';
import { waitFirst } from './wait-first.ts';

/** How the fault began, where the evidence does not say it: that of a sudden one names its day, and keeps silent where there is none. */
function onsetSentence(report: NonNullable<BikeDetail['report']>): string | null {
  const { onset, causes } = report.diagnosis;
  if (onset.kind !== 'sudden' || onset.at !== null || causes[0].cause === 'no-fault' || wasOnce(report)) return null;
  return `It began suddenly (${chance(onset.probability)} likely).`;
}

/** What the rides say of the trouble, its onset and its end, a sentence each. */
function facts(bike: BikeDetail, said: boolean): string[] {
  const { report } = bike;
  if (!report) return [];
  const { riderPart, unexplained } = report.diagnosis;
  return [
    troubleSentence(bike),
    said ? onsetSentence(report) : null,
    said && verdictOf(report).kind === 'named' ? helpedAnother(report).trim() : null,
    said ? stillThereSentence(report) : null,
    said && !tellsBoth(report) ? unexplained?.sentence : null,
    riderPart.probability >= 0.5 || riderPart.goneWithSoftLegs ? riderPart.sentence : null,
    undecidedSentence(report),
  ].filter((fact): fact is string => Boolean(fact));
}

/** Whether the verdict says what is wrong now beside what it was at first. */
const tellsBoth = ({ diagnosis }: NonNullable<BikeDetail['report']>): boolean =>
  whichCauses(diagnosis).atFirst !== null;

/** How likely the named cause is and what it means, or what an adjustment made of it; null where none is named. */
function likelyCause(bike: BikeDetail, dated: (sentence: string) => string): HTMLElement | null {
  const named = namedCause(bike);
  if (bike.report && (tellsBoth(bike.report) || bike.report.diagnosis.laterCured))
    return make('p', { class: 'verdict-likely' }, dated(verdictSentence(bike.report)));
  // no fault is named: what keeps it from being surer is said as the report says it
  if (named?.cause === 'no-fault' && bike.report) {
    const say = verdictOf(bike.report).kind === 'sound' ? soundSentence : explainedSentence;
    return make('p', { class: 'verdict-likely' }, dated(say(bike.report)));
  }
  if (!named) return null;
  const { name, meaning } = causeWords(named.cause, bike.bike.actuation);
  // below a headline that names two causes it is said which of them is meant
  const namesTwo = bike.report && (verdictOf(bike.report).kind === 'open' || bike.report.diagnosis.limitOrHanger);
  const which = namesTwo ? `${name} ` : '';
  const likely = `${which}${chance(named.probability)} likely${bike.report ? ifOneFault(bike.report) : ''}`;
  return make('p', { class: 'verdict-likely' }, make('strong', {}, upperFirst(likely)), `: ${meaning}.`);
}

/** What speaks for the likeliest cause, what the rides cannot tell, and all causes. */
function weighed(bike: BikeDetail, said: boolean, dated: (sentence: string) => string): Child[] {
  const { report } = bike;
  if (!report) return [];
  const { causes, notes, anotherSince, laterCured } = report.diagnosis;
  const { actuation } = bike.bike;
  const evidence = (heading: string, sentences: readonly string[]): Child =>
    said && sentences.length > 0 && [make('h3', {}, heading), points(sentences.map(dated))];
  const past = wasOnce(report);
  const named = !tellsBoth(report) || wasOneCause(report);
  return [
    evidence('What speaks for it', nowEvidence(report)),
    named && evidence(past ? 'What spoke for it at first' : 'What speaks for it', causes[0].evidence),
    notes.length > 0 && [make('h3', {}, 'What the rides cannot tell'), points(notes.map(dated))],
    anotherSince && causeList(anotherSince.causes, SINCE_ALONE, 'since-', actuation, dated),
    !showsNothing(report) &&
      causeList(causes, causesTitle(report, `All that was weighed${ifOneFault(report)}`), '', actuation, dated),
    laterCured && causeList(laterCured.causes, LATER_CURED, 'later-', actuation, dated),
  ];
}

/** The verdict in words with what speaks for it beside them, and the next step below. */
export function verdictSection(page: BikePage): HTMLElement {
  const { bike } = page;
  const { report, state } = bike;
  const adjustedAt = [...(report?.adjustments ?? []), ...(report?.looks ?? [])].map(({ at }) => at);
  const riddenAt = report?.rides.map(({ start }) => start) ?? [];
  const dated = (sentence: string): string => inOwnZone(sentence, adjustedAt, riddenAt);
  const tooLittle = state.word === 'too little data';
  return make(
    'section',
    { class: `verdict is-${standingKey(state)}`, 'aria-label': 'Verdict' },
    make(
      'div',
      { class: 'panel verdict-words' },
      make(
        'div',
        { class: 'verdict-said' },
        make('p', { class: 'verdict-state' }, stateMark(standingOf(state)), make('strong', {}, stateLabel(state))),
        make('h2', { class: 'verdict-headline' }, dated(verdictHeadline(bike))),
        state.dangers.length > 0 && points(state.dangers.map(dated)),
        likelyCause(bike, dated),
        ...facts(bike, !tooLittle).map((fact) => make('p', {}, dated(fact))),
        tooLittle && points(state.reasons.filter((reason) => !state.dangers.includes(reason)).map(dated)),
        bike.rides === 0 &&
          make('p', {}, make('a', { href: `/add?bike=${bike.id}` }, 'Add its first rides'), ' to get a verdict.'),
      ),
      make('div', { class: 'verdict-weighed' }, weighed(bike, !tooLittle, dated)),
    ),
    bike.pending > 0 ? waitFirst(page) : report && nextStep(page, report.diagnosis, dated),
  );
}
