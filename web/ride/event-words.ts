import { upperFirst } from '../../src/numeric/upper-first.ts';
import { eventName } from '../../src/report/charts/mark-shapes.ts';
import { dropSideWords } from '../../src/report/words/event-words.ts';
import { isUnclear, mayWellBeClean } from '../../src/report/words/unclear-outcome.ts';
import type { EventKind } from '../charts/timeline/timeline-event.ts';
import { rideClock } from '../words/dates.ts';
import type { RideEvent } from './ride-event.ts';

/** What each kind is called. */
export const kindWords: Readonly<Record<EventKind, string>> = { ...eventName, clean: 'clean', unjudged: 'not judged' };

type Shift = Extract<RideEvent, { readonly shift: object }>['shift'];

const unclearWords = (shift: Shift): string => {
  if (!shift.outcomeChances) return 'Unclear';
  return mayWellBeClean(shift) ? 'Unclear, may well be clean' : 'Unclear which trouble';
};

/** An event in a line: "Late: 21 to 24 teeth". */
export function eventTitle(event: RideEvent): string {
  const kind = upperFirst(kindWords[event.kind]);
  switch (event.kind) {
    case 'ghost':
      return `${kind}: ${event.ghost.fromTeeth} to ${event.ghost.toTeeth} teeth`;
    case 'drop':
      return `${kind}: ${dropSideWords[event.drop.side]}`;
    case 'skip':
      return `${kind}: on the ${event.skip.teeth}`;
    default: {
      const { fromTeeth, toTeeth } = event.shift;
      const how = isUnclear(event.shift) ? `${unclearWords(event.shift)}, counted as ${kindWords[event.kind]}` : kind;
      const from =
        event.around.stoodOn === null || event.kind === 'clean' ? '' : `, chain on the ${event.around.stoodOn}`;
      return `${how}: ${fromTeeth} to ${toTeeth} teeth${from}`;
    }
  }
}

/** The line with its place in the ride, for a screen reader. */
export const eventAloud = (event: RideEvent): string => `${eventTitle(event)}, at ${rideClock(event.timeS)}`;
