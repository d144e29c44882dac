import { eventShape, type StripEventKind } from '../../../src/report/charts/mark-shapes.ts';

/** Kinds of events a ride has; `clean` and `unjudged` are shifts that are not trouble. */
export type EventKind = StripEventKind | 'clean' | 'unjudged';

/** What the timeline needs of an event. */
export interface TimelineEvent {
  readonly key: string;
  readonly kind: EventKind;
  readonly timeS: number;
  /** The rider said that it did not happen. */
  readonly rejected: boolean;
}

/** Shapes of all kinds; those of trouble are the same as in the written report. */
export const kindShape: Readonly<Record<EventKind, string>> = {
  ...eventShape,
  clean: 'M0,-4V4',
  unjudged: 'M-1.5,-1.5H1.5V1.5H-1.5Z',
};
