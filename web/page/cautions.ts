import type { Caution } from '../../src/diagnosis/next-step/caution.ts';
import { cautionsByPlace } from '../../src/report/words/cautions-by-place.ts';
import type { BikeState, Diagnosis } from '../api/answers.ts';
import { type Child, make } from '../dom/make.ts';
import { looksFirst } from '../words/looks-first.ts';
import { icon } from './icons.ts';
import { points } from './points.ts';

type Suggestion = Diagnosis['suggestion'];

/** For whom the cautions hold: where a chain came off, for everyone who rides on; else for who turns something. */
export function cautionsHeading({ namesCause, inspectFirst }: Pick<Suggestion, 'namesCause' | 'inspectFirst'>): string {
  if (inspectFirst) return namesCause ? 'Before you ride on or touch it' : 'Before you ride on';
  return namesCause ? 'Before you touch it' : 'Should you touch it all the same';
}

/** What to mind before the bike is ridden on or anything is turned, set apart from the rest. */
const cautions = (suggestion: Suggestion, mind: readonly Caution[]): HTMLElement =>
  make(
    'div',
    { class: 'cautions' },
    make('h3', {}, icon('caution'), cautionsHeading(suggestion)),
    points(mind.map(({ text }) => text)),
  );

/**
 * A step with its cautions: after it, but before it where something is known of the bike that can hurt who rides it, since that cannot wait
 * until the step was read. What only follows the work is no caution, and is left to the step; what the
 * bike's dangers say, which stand above it on the same page, is not said again.
 */
export function withCautions(
  suggestion: Suggestion,
  state: Pick<BikeState, 'underWay' | 'dangers' | 'cautionsSaid'>,
  step: readonly Child[],
): Child[] {
  const { mind, first } = cautionsByPlace(suggestion);
  const said = cautions(
    suggestion,
    mind.filter(({ kind }) => !state.cautionsSaid.includes(kind)),
  );
  return first || looksFirst(state) ? [said, ...step] : [...step, said];
}
