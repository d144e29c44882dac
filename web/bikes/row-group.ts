import { stateOrder } from '../../src/report/state/state-word.ts';
import type { BikeSummary } from '../api/answers.ts';
import { type Standing, standingOf, standingWords } from '../words/state-words.ts';

/** What bikes are picked by: how they stand, or that there is no verdict yet since their first rides are being worked through. */
export type RowGroup = Standing | 'under way';

/** The groups in the order in which their buttons stand. */
export const rowGroups: readonly RowGroup[] = ['look first', ...stateOrder, 'under way'];

/** The group of a bike: one that is being worked through is in no state yet, and one that is to be looked over first is in no other. */
export const groupOf = ({ state }: BikeSummary): RowGroup => (state.underWay ? 'under way' : standingOf(state));

/** How a group is called on its button and in the address. */
export const groupWords = (group: RowGroup): { readonly label: string; readonly key: string } =>
  group === 'under way'
    ? { label: 'Being worked through', key: 'working' }
    : { label: standingWords[group].many, key: standingWords[group].key };
