import type { DiagnosisReport } from '../diagnosis-report-schema.ts';
import type { Verdict } from '../verdict-kind.ts';
import { stepList } from './step-list.ts';

type Told = Pick<
  DiagnosisReport['suggestion'],
  'steps' | 'action' | 'start' | 'inShort' | 'parameter' | 'looksFirst' | 'firstAbout'
>;

/**
 * The first of what to do, for a list that has no room for more. Of a step that turns nothing but begins with a look it has the look as well: that
 * nothing is turned yet is not what is done. Why a bike that shifts well is left alone its state's reasons say, and so it is not said here.
 */
export function workInShort(suggestion: Told, kind: Verdict['kind']): string {
  const { parameter, looksFirst, firstAbout, action, inShort } = suggestion;
  if (inShort !== undefined && shiftsWell.has(kind)) return inShort;
  if (parameter !== 'none' || looksFirst === undefined || firstAbout !== undefined)
    return suggestion.steps?.[0] ?? action;
  const { steps, start } = stepList(suggestion);
  return start === null ? steps[0] : `${steps[0]} ${start}`;
}

/** The verdicts by which the newest rides shift well, in a sentence that is a reason of the state as well. */
const shiftsWell: ReadonlySet<Verdict['kind']> = new Set(['put-right', 'not-shown']);
