import { select } from 'd3-selection';
import { drawLateralError } from '../../src/report/charts/lateral-error-chart.ts';
import type { Diagnosis } from '../api/answers.ts';
import type { ChartPlan } from './chart-plan.ts';

type LateralError = Diagnosis['lateralErrorMm'];

/** How far the guide pulley is thought to stand from the middle of each cog, with its band. */
export function lateralErrorPlan(cogs: LateralError, summary: string, fileName: string): ChartPlan {
  return {
    title: 'Guide pulley against each cog',
    summary,
    fileName,
    table: {
      columns: ['teeth', 'lateral error, mm (inboard positive)', 'low (95 %)', 'high (95 %)'],
      rows: cogs.map(({ teeth, mean, low, high }) => [teeth, mean, low, high]),
    },
    heightPx: () => 300,
    draw: (svg, widthPx, heightPx) => drawLateralError(select(svg), cogs, { widthPx, heightPx }),
  };
}
