import type { DiagnosisReport } from '../diagnosis-report-schema.ts';
import { stepList } from './step-list.ts';

type Told = Pick<
  DiagnosisReport['suggestion'],
  'steps' | 'action' | 'start' | 'parameter' | 'looksFirst' | 'firstAbout'
>;

/**
 * The first of what to do, for a list that has no room for more. Of a step that turns nothing but begins with a look it has the look as well: that
 * nothing is turned yet is not what is done.
 */
export function workInShort(suggestion: Told): string {
  const { parameter, looksFirst, firstAbout, action } = suggestion;
  if (parameter !== 'none' || looksFirst === undefined || firstAbout !== undefined)
    return suggestion.steps?.[0] ?? action;
  const { steps, start } = stepList(suggestion);
  return start === null ? steps[0] : `${steps[0]} ${start}`;
}
