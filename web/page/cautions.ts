import { make } from '../dom/make.ts';
import { icon } from './icons.ts';
import { points } from './points.ts';

/** What to mind before anything is turned, set apart from the rest. `advised`: whether it is advised to turn or look after anything. */
export const cautions = (sentences: readonly string[], advised: boolean): HTMLElement =>
  make(
    'div',
    { class: 'cautions' },
    make('h3', {}, icon('caution'), advised ? 'Before you touch it' : 'Should you touch it all the same'),
    points(sentences),
  );
