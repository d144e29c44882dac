import { bikeSchema } from '../drivetrain/bike.ts';
import { isAdjustmentTable } from './is-adjustment-table.ts';

const bikeKeys = Object.keys(bikeSchema.shape).filter((key) => key !== 'name');

/** True where an object of JSON has a key of a bike file. Of one that is broken its text has to tell. */
function isBikeText(text: string): boolean {
  if (!/^\uFEFF?\s*\{/.test(text)) return false;
  try {
    const keys = Object.keys(JSON.parse(text.replace(/^\uFEFF/, '')) as object);
    return keys.some((key) => bikeKeys.includes(key));
  } catch {
    return bikeKeys.some((key) => text.includes(`"${key}"`));
  }
}

const isAdjustmentText = (text: string): boolean =>
  isAdjustmentTable(text.replace(/^\uFEFF/, '')) || /^\uFEFF?\s*\[\s*\{[^}]*"parameter"/.test(text);

/** What goes with rides and is none itself, told by content, broken or not. */
export type CompanionKind = 'bike' | 'adjustments';

/** What a text is of those; null: a ride, or nothing that is known. */
export function companionKind(text: string): CompanionKind | null {
  if (isBikeText(text)) return 'bike';
  return isAdjustmentText(text) ? 'adjustments' : null;
}
