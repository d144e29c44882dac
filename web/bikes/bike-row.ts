import { counted } from '../../src/numeric/counted.ts';
import { timesWords } from '../../src/numeric/times-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { BikeSummary } from '../api/answers.ts';
import { trendSpark } from '../charts/trend-spark.ts';
import { make } from '../dom/make.ts';
import { stateMark } from '../page/state-mark.ts';
import { day } from '../words/dates.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import { percentFigure, percentRange } from '../words/numbers.ts';
import { skippedWords } from '../words/skipped-words.ts';
import { standingKey, standingOf, stateLabel } from '../words/state-words.ts';
import { troublePeriod } from '../words/trouble-period.ts';
import { rowReason } from './row-reason.ts';

/** How often shifts go wrong: of all of them, as the line beside it, and onto the cog that stands out where one does. */
function figure({ state }: BikeSummary): HTMLElement {
  const { troubleRate, worstCog } = state;
  const skipped = skippedWords(state);
  if (troubleRate === null) return figureOf('–', 'no shift judged yet');
  return figureOf(
    percentFigure(troubleRate),
    `of ${counted(state.judgedShifts, 'shift')} in trouble ${troublePeriod(state)}`,
    state.chainsLost > 0 && make('b', {}, `Chain lost ${timesWords(state.chainsLost)}`),
    skipped && make('b', {}, upperFirst(skipped)),
    worstCog &&
      make('b', {}, `Worst: ${percentFigure(worstCog.troubleRate)} of ${worstCog.shifts} onto the ${worstCog.teeth}`),
    make(
      'small',
      {},
      `95\u00a0% interval: ${percentRange(state.low, state.high)}${worstCog ? ` of all, ${percentRange(worstCog.low, worstCog.high)} onto the ${worstCog.teeth}` : ''}`,
    ),
  );
}

const figureOf = (big: string, words: string, ...more: (HTMLElement | null | '' | false)[]): HTMLElement =>
  make('p', { class: 'rack-figure' }, make('strong', {}, big), make('span', {}, words, ...more));

/** One bike among all: state, reason, trend and number. */
export function bikeRow(summary: BikeSummary, topRate: number): HTMLElement {
  const ridden = summary.lastRideAt
    ? `${counted(summary.rides, 'ride')}, last ${day(summary.lastRideAt)}`
    : 'no ride yet';
  const reason = rowReason(summary);
  return make(
    'li',
    { class: `rack-row is-${standingKey(summary.state)}` },
    make('div', { class: 'rack-mark' }, stateMark(standingOf(summary.state))),
    make(
      'div',
      { class: 'rack-name' },
      make('h2', {}, make('a', { href: `/bikes/${summary.id}` }, summary.bike.name)),
      make(
        'p',
        { class: 'rack-state' },
        make('strong', {}, stateLabel(summary.state)),
        reason && make('span', {}, reason),
      ),
      make('p', { class: 'quiet' }, `${drivetrainLine(summary.bike)} · ${ridden}${summary.sample ? ' · sample' : ''}`),
      summary.pending > 0 && make('p', { class: 'quiet is-working' }, summary.staleReason ?? 'Being worked through …'),
    ),
    trendSpark(summary, topRate),
    figure(summary),
  );
}
