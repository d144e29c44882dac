import { counted } from '../../src/numeric/counted.ts';
import { figure } from '../../src/numeric/figure.ts';
import { timesWords } from '../../src/numeric/times-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import type { BikeSummary } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { percentFigure, percentRange } from '../words/numbers.ts';
import { skippedWords } from '../words/skipped-words.ts';
import { troublePeriod } from '../words/trouble-period.ts';
import { worstCogWords } from '../words/worst-cog-words.ts';

type State = BikeSummary['state'];

/** A number to be seen from afar, what it counts, and what else is to be said beside it. */
interface RowFigure {
  readonly big: string;
  readonly words: string;
  readonly bold: readonly (string | false | null)[];
  readonly small?: string;
}

const shiftsInTrouble = ({ troubleRate, judgedShifts }: State): string =>
  troubleRate === null
    ? 'no shift judged yet'
    : `${percentFigure(troubleRate)} of ${counted(judgedShifts, 'shift')} in trouble`;

/** Wear shows by skips and hardly in any shift. */
function skipFigure(state: State): RowFigure {
  const { skips, judgedRides } = state;
  const period = judgedRides > 0 ? ` ${troublePeriod(state)}` : '';
  return {
    big: figure(skips),
    words: `${skips === 1 ? 'skip' : 'skips'} of the chain${period}`,
    bold: [],
    small: upperFirst(shiftsInTrouble(state)),
  };
}

function troubleFigure(state: State): RowFigure {
  const { troubleRate, worstCog } = state;
  if (troubleRate === null) return { big: '–', words: shiftsInTrouble(state), bold: [] };
  return {
    big: percentFigure(troubleRate),
    words: `of ${counted(state.judgedShifts, 'shift')} in trouble ${troublePeriod(state)}`,
    bold: [worstCog && `Worst: ${worstCogWords(worstCog)}`],
    small: `95\u00a0% interval: ${percentRange(state.low, state.high)}${worstCog ? ` of all, ${percentRange(worstCog.low, worstCog.high)} onto the ${worstCog.teeth}` : ''}`,
  };
}

/** How often shifts go wrong: of all of them, as the line beside it, and onto the cog that stands out where one does. Of a worn bike, how often the chain skipped. */
export function rowFigure({ state }: Pick<BikeSummary, 'state'>): HTMLElement {
  const { big, words, bold, small } = skippedWords(state) ? skipFigure(state) : troubleFigure(state);
  const lost = state.chainsLost > 0 && `Chain lost ${timesWords(state.chainsLost)}`;
  return make(
    'p',
    { class: 'rack-figure' },
    make('strong', {}, big),
    make(
      'span',
      {},
      words,
      ...[lost, ...bold].map((one) => one && make('b', {}, one)),
      small !== undefined && make('small', {}, small),
    ),
  );
}

/** The same in a few words, for a row without room. */
export const figureInShort = ({ state }: Pick<BikeSummary, 'state'>): string => {
  const { troubleRate, judgedShifts } = state;
  return (
    skippedWords(state) ??
    (troubleRate === null
      ? shiftsInTrouble(state)
      : `${percentFigure(troubleRate)} of ${figure(judgedShifts)} in trouble`)
  );
};
