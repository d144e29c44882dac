import { stateOrder } from '../../src/report/state/state-word.ts';
import type { BikeSummary } from '../api/answers.ts';
import { isSetAside } from '../words/set-aside-words.ts';
import { type Standing, standingOf, standingWords } from '../words/state-words.ts';

/** What bikes are picked by: how they stand, that there is no verdict yet since their first rides are being worked through, or that they were set aside by hand. */
export type RowGroup = Standing | 'under way' | 'set aside';

/** The groups in the order in which their buttons stand. */
export const rowGroups: readonly RowGroup[] = ['look first', 'set aside', ...stateOrder, 'under way'];

/** The group of a bike: one that is being worked through is in no state yet, and one that is to be looked over first is in no other. */
export const groupOf = ({ state }: Pick<BikeSummary, 'state'>): Exclude<RowGroup, 'set aside'> =>
  state.underWay ? 'under way' : standingOf(state);

/** Whether a bike is in a group: one that is set aside is in that of its state as well. */
export const isIn = (group: RowGroup, bike: Pick<BikeSummary, 'state' | 'workshopMark'>): boolean =>
  group === 'set aside' ? isSetAside(bike) : groupOf(bike) === group;

/** How a group is called on its button and in the address. */
export function groupWords(group: RowGroup): { readonly label: string; readonly key: string } {
  if (group === 'under way') return { label: 'Being worked through', key: 'working' };
  if (group === 'set aside') return { label: 'Set aside', key: 'aside' };
  return { label: standingWords[group].many, key: standingWords[group].key };
}
