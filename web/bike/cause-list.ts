import { causeWords } from '../../src/diagnosis/cause-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { Bike, Diagnosis } from '../api/answers.ts';
import { make, makeSvg } from '../dom/make.ts';
import { points } from '../page/points.ts';
import { chanceFigure } from '../words/numbers.ts';

const MOST_AT_ONCE = 4;
/** What is less likely reads as "< 1 %", and is not worth a bar beside what is likely. */
const WORTH_A_BAR = 0.005;

/** How many of the causes, the likeliest first, are open to view: the likeliest always, and a few more that are likely at all. */
export function shownAtOnce(causes: readonly Pick<Diagnosis['causes'][number], 'probability'>[]): number {
  const likely = causes.filter(({ probability }) => probability >= WORTH_A_BAR).length;
  return Math.min(Math.max(likely, 1), MOST_AT_ONCE);
}

const bar = (probability: number): SVGSVGElement =>
  makeSvg(
    'svg',
    { class: 'cause-bar', viewBox: '0 0 100 6', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
    makeSvg('rect', { class: 'cause-ground', width: 100, height: 6 }),
    makeSvg('rect', { class: 'cause-share', width: Math.max(probability * 100, 0.6), height: 6 }),
  );

function row(
  { cause, probability, evidence }: Diagnosis['causes'][number],
  actuation: Bike['actuation'],
  dated: (sentence: string) => string,
  rank: number,
  key: string,
): HTMLElement {
  const name = upperFirst(causeWords(cause, actuation).name);
  return make(
    'li',
    { class: rank === 0 ? 'cause is-likeliest' : 'cause' },
    make('span', { class: 'cause-name' }, name),
    make('span', { class: 'cause-percent' }, chanceFigure(probability)),
    bar(probability),
    rank > 0 &&
      evidence.length > 0 &&
      make(
        'details',
        { 'data-keep': `why-${key}${cause}` },
        make('summary', {}, 'Why', make('span', { class: 'out-of-sight' }, `: ${name}`)),
        points(evidence.map(dated)),
      ),
  );
}

/**
 * Every cause with its probability: the likeliest open to view, the rest behind a word.
 *
 * @param key tells it apart from another list on the page
 * @param dated puts a sentence's dates into the reader's time zone
 */
export function causeList(
  causes: Diagnosis['causes'],
  title: string,
  key: string,
  actuation: Bike['actuation'],
  dated: (sentence: string) => string,
): HTMLElement {
  const shown = shownAtOnce(causes);
  const rest = causes.length - shown;
  const rows = causes.map((cause, rank) => row(cause, actuation, dated, rank, key));
  return make(
    'div',
    { class: 'causes' },
    make('h3', {}, title),
    make('ol', { class: 'cause-list' }, ...rows.slice(0, shown)),
    rest > 0 &&
      make(
        'details',
        { 'data-keep': `all-${key}causes` },
        make('summary', {}, rest === 1 ? 'The less likely one' : `The ${rest} less likely ones`),
        make('ol', { class: 'cause-list', start: shown + 1 }, ...rows.slice(shown)),
      ),
  );
}
