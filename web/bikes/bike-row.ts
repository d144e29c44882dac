import type { BikeSummary } from '../api/answers.ts';
import { trendSpark } from '../charts/trend-spark.ts';
import { listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { stateMark } from '../page/state-mark.ts';
import { drivetrainLine } from '../words/drivetrain-words.ts';
import { notRiddenSince } from '../words/not-ridden-since.ts';
import { riddenWords } from '../words/ridden-words.ts';
import { setAsideSince } from '../words/set-aside-words.ts';
import { standingKey, standingOf, stateLabel } from '../words/state-words.ts';
import { figureInShort, rowFigure } from './row-figure.ts';
import { rowReason } from './row-reason.ts';

/** Opens what a small screen folds away, and folds it again; `unfolded` holds the bikes whose rows are open. */
function foldButton({ id, bike }: BikeSummary, row: HTMLElement, unfolded: Set<string>): HTMLElement {
  const button = make(
    'button',
    { type: 'button', class: 'plain rack-fold', 'data-keep': `fold-${id}`, 'aria-label': `More of ${bike.name}` },
    icon('more'),
  );
  const draw = (): void => {
    row.classList.toggle('is-unfolded', unfolded.has(id));
    button.setAttribute('aria-expanded', String(unfolded.has(id)));
  };
  draw();
  return listen(button, {
    click: () => {
      if (!unfolded.delete(id)) unfolded.add(id);
      draw();
    },
  });
}

function names(summary: BikeSummary): HTMLElement {
  const { id, bike, state, sample, workshopMark, pending, staleReason } = summary;
  const reason = rowReason(summary);
  const workedSince = notRiddenSince(summary);
  return make(
    'div',
    { class: 'rack-name' },
    make('h2', {}, make('a', { href: `/bikes/${id}`, 'data-keep': `bike-${id}` }, bike.name)),
    make(
      'p',
      { class: 'rack-state' },
      make('strong', {}, stateLabel(state)),
      sample && make('span', { class: 'quiet rack-sample' }, 'sample'),
      make('span', { class: 'rack-brief' }, figureInShort(summary)),
      reason && make('span', { class: 'rack-reason' }, reason),
    ),
    workshopMark &&
      make(
        'p',
        { class: 'rack-aside' },
        icon('tag'),
        make('strong', {}, setAsideSince(workshopMark)),
        workshopMark.note !== '' && `: ${workshopMark.note}`,
      ),
    workedSince && make('p', { class: 'rack-worked' }, workedSince),
    make('p', { class: 'quiet rack-bike' }, `${drivetrainLine(bike)} · ${riddenWords(summary)}`),
    pending > 0 && make('p', { class: 'quiet is-working' }, staleReason ?? 'Being worked through …'),
  );
}

/**
 * One bike among all: state, reason, trend and number. On a small screen a bike that asks for nothing takes a line, and its button shows the rest.
 *
 * @param unfolded ids of the bikes of which all is shown there; kept up to date
 */
export function bikeRow(summary: BikeSummary, topRate: number, unfolded: Set<string>): HTMLElement {
  const { state } = summary;
  const row = make(
    'li',
    { class: `rack-row is-${standingKey(state)}` },
    make('div', { class: 'rack-mark' }, stateMark(standingOf(state))),
    names(summary),
    trendSpark(summary, topRate),
    rowFigure(summary),
  );
  row.append(foldButton(summary, row, unfolded));
  return row;
}
