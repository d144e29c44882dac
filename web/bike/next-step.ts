import { parameterName } from '../../src/adjustments/parameter-words.ts';
import { upperFirst } from '../../src/numeric/upper-first.ts';
import { cautionsByPlace } from '../../src/report/words/cautions-by-place.ts';
import { stepIsAbout } from '../../src/report/words/step-is-about.ts';
import { stepList } from '../../src/report/words/step-list.ts';
import { turnWords } from '../../src/report/words/turn-words.ts';
import type { Diagnosis } from '../api/answers.ts';
import { listen, make } from '../dom/make.ts';
import { withCautions } from '../page/cautions.ts';
import { icon } from '../page/icons.ts';
import { points } from '../page/points.ts';
import { looksFirst } from '../words/looks-first.ts';
import type { BikePage } from './bike-page.ts';

const step = (term: string, text: string): HTMLElement[] => [make('dt', {}, term), make('dd', {}, text)];

/** One thing as a paragraph, several as steps. */
const action = (steps: readonly string[]): HTMLElement =>
  steps.length === 1
    ? make('p', { class: 'tag-action' }, steps[0])
    : make('ol', { class: 'tag-action' }, ...steps.map((one) => make('li', {}, one)));

/** Over a step that turns nothing: where something can hurt, it is no leave to ride on. */
const nothingToTurn = (state: BikePage['bike']['state']): string =>
  looksFirst(state) ? 'Look it over; nothing to turn yet' : 'Nothing to turn';

/**
 * What to do next, as a tag to hang on the bike. The cautions always stand with it, before it where something can hurt.
 *
 * @param dated puts a sentence's dates into the reader's time zone
 */
export function nextStep(
  { bike, log }: Pick<BikePage, 'bike' | 'log'>,
  diagnosis: Diagnosis,
  dated: (sentence: string) => string,
): HTMLElement {
  const { suggestion, separates, checkRide } = diagnosis;
  const { steps, start } = stepList(suggestion);
  const { follows } = cautionsByPlace(suggestion);
  const about = stepIsAbout(suggestion);
  const turns = diagnosis.clicks.parameter === suggestion.parameter ? turnWords(diagnosis.clicks) : null;
  const plan = checkRide.blocks.length + checkRide.sentences.length > 0 ? checkRide : null;
  return make(
    'section',
    { class: 'tag', 'aria-label': 'Next step' },
    make('p', { class: 'tag-kind' }, 'Next step'),
    make('h2', {}, about === null ? nothingToTurn(bike.state) : upperFirst(parameterName(about))),
    withCautions(suggestion, bike.state, [
      make(
        'div',
        { class: 'tag-step' },
        action(steps.map(dated)),
        make(
          'dl',
          { class: 'steps' },
          ...(start === null ? [] : step('Start with', dated(start))),
          ...(follows ? step(follows.when, follows.what) : []),
          ...step('Then check', dated(suggestion.verify)),
        ),
        turns && make('p', { class: 'quiet' }, turns),
        (plan || separates) &&
          make(
            'details',
            { 'data-keep': 'check-ride' },
            make('summary', {}, plan ? 'A ride that would tell more' : 'What would tell more'),
            separates && make('p', {}, separates.sentence),
            plan && points(plan.sentences),
          ),
      ),
    ]),
    about !== null &&
      listen(
        make('button', { type: 'button', class: 'plain', 'data-keep': 'log-this' }, icon('edit'), 'Done? Log it'),
        { click: () => log(about) },
      ),
  );
}
