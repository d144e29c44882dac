import { make } from '../dom/make.ts';
import { icon } from './icons.ts';
import { points } from './points.ts';

/** What to mind before anything is turned, set apart from the rest. */
export const cautions = (sentences: readonly string[]): HTMLElement =>
  make('div', { class: 'cautions' }, make('h3', {}, icon('caution'), 'Before you touch it'), points(sentences));
