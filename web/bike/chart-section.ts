import { chartFigure } from '../charts/chart-figure.ts';
import type { ChartPlan } from '../charts/chart-plan.ts';
import { make } from '../dom/make.ts';

/** A section of the bike's page that is one chart under a heading. `id`: of the heading. */
export const chartSection = (id: string, heading: string, plan: ChartPlan): HTMLElement =>
  make(
    'section',
    { 'aria-labelledby': id },
    make('h2', { id }, heading),
    make('div', { class: 'panel' }, chartFigure(plan)),
  );
