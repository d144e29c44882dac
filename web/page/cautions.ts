import type { Diagnosis } from '../api/answers.ts';
import { make } from '../dom/make.ts';
import { icon } from './icons.ts';
import { points } from './points.ts';

type Suggestion = Diagnosis['suggestion'];

/** For whom the cautions hold: where a chain came off, for everyone who rides on; else for who turns something. */
export function cautionsHeading({ namesCause, inspectFirst }: Pick<Suggestion, 'namesCause' | 'inspectFirst'>): string {
  if (inspectFirst) return namesCause ? 'Before you ride on or touch it' : 'Before you ride on';
  return namesCause ? 'Before you touch it' : 'Should you touch it all the same';
}

/** What to mind before the bike is ridden on or anything is turned, set apart from the rest. */
export const cautions = (suggestion: Suggestion): HTMLElement =>
  make(
    'div',
    { class: 'cautions' },
    make('h3', {}, icon('caution'), cautionsHeading(suggestion)),
    points(suggestion.cautions),
  );
