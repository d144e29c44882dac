import { stateOrder } from '../../src/report/state/state-word.ts';
import type { BikeSummary, StateWord } from '../api/answers.ts';
import { stateWords } from '../words/state-words.ts';

/** What bikes are picked by: their state, or that there is no verdict yet since their first rides are being worked through. */
export type RowGroup = StateWord | 'under way';

/** The groups in the order in which their buttons stand. */
export const rowGroups: readonly RowGroup[] = [...stateOrder, 'under way'];

/** The group of a bike: one that is being worked through is in no state yet. */
export const groupOf = ({ state }: BikeSummary): RowGroup => (state.underWay ? 'under way' : state.word);

/** How a group is called on its button and in the address. */
export const groupWords = (group: RowGroup): { readonly label: string; readonly key: string } =>
  group === 'under way' ? { label: 'Being worked through', key: 'working' } : stateWords[group];
