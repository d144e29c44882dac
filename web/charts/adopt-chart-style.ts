import { chartStyle } from '../../src/report/charts/chart-style.ts';

/** Gives the document the looks of the charts that it shares with the written report. */
export function adoptChartStyle(): void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(chartStyle);
  document.adoptedStyleSheets = [sheet, ...document.adoptedStyleSheets];
}
