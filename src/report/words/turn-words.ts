import { type WholeTurns, wholeTurns } from '../../diagnosis/whole-turns.ts';
import { counted } from '../../numeric/counted.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';

/** Where the most is more than so many times the fewest, how many it takes is hardly known. A limit of ours. */
const HARDLY_KNOWN = 5;

/** How far the indexing is to be turned, in whole turns of the adjuster with the interval; null where nothing speaks for a turn. */
export function turnWords(clicks: DiagnosisReport['clicks']): string | null {
  if (clicks.low <= 0 && clicks.high >= 0) return null;
  const inboard = clicks.mean > 0;
  const tension = clicks.parameter === 'cable-tension';
  const sense = tension ? tensionSense(inboard) : inboard ? 'inboard' : 'outboard';
  const fault = tension ? 'the cable tension' : 'the index offset';
  return `By the shifts seen, and if it is ${fault}, the setting needs ${howMany(wholeTurns(clicks, inboard), sense)}`;
}

const tensionSense = (inboard: boolean): string =>
  inboard ? 'anticlockwise (more tension)' : 'clockwise (less tension)';

const howMany = ({ noun, fewest, about, most }: WholeTurns, sense: string): string =>
  `about ${counted(about, noun)} ${sense}, between ${fewest} and ${most} (95 %)${most > HARDLY_KNOWN * fewest ? ': how many is hardly known' : ''}.`;
