import type { BikeSummary } from '../api/answers.ts';
import { calendarDay } from './dates.ts';

type Marked = Pick<BikeSummary, 'workshopMark'>;
type Mark = NonNullable<BikeSummary['workshopMark']>;

/** Whether a bike was set aside for the workshop by hand. */
export const isSetAside = ({ workshopMark }: Marked): boolean => workshopMark !== null;

/** That a bike is set aside for the workshop, and since when: "Set aside for the workshop since 3 May 2026". */
export const setAsideSince = ({ on }: Pick<Mark, 'on'>): string =>
  `Set aside for the workshop${on === null ? '' : ` since ${calendarDay(on)}`}`;

/** The same with what was noted; null of a bike that is not set aside. */
export const setAsideWords = ({ workshopMark }: Marked): string | null =>
  workshopMark && `${setAsideSince(workshopMark)}${workshopMark.note === '' ? '' : `: ${workshopMark.note}`}`;
