import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

/** How far the indexing is to be turned, in turns of the adjuster with the interval; null where nothing speaks for a turn. */
export function turnWords(clicks: DiagnosisReport['clicks']): string | null {
  if (clicks.low <= 0 && clicks.high >= 0) return null;
  const inboard = clicks.mean > 0;
  const sense =
    clicks.parameter === 'cable-tension'
      ? inboard
        ? 'anticlockwise (more tension)'
        : 'clockwise (less tension)'
      : inboard
        ? 'inboard'
        : 'outboard';
  const [near, far] = [clicks.low, clicks.high].map(Math.abs).sort((a, b) => a - b);
  const fault = clicks.parameter === 'cable-tension' ? 'the cable tension' : 'the index offset';
  return `By the shifts seen, and if it is ${fault}, the setting needs about ${Math.abs(clicks.mean).toFixed(1)} ${clicks.unit} ${sense}, between ${near.toFixed(1)} and ${far.toFixed(1)} (95 %).`;
}
