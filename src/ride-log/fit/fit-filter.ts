import type { FitDefinition } from './fit-definition.ts';
import { FIT_EVENT, FIT_EVENTS, FIT_RECORD, MOST_OTHER_MESSAGES } from './fit-wanted.ts';

/** Lets through what a ride needs of wanted messages: all records, events of timer and gears, and of the rest a bounded number. */
export class FitFilter {
  readonly #counts = new Map<number, number>();

  /** Whether the data record at `at` is needed; the arguments are those of `FitRecordVisitor`. */
  lets(bytes: Uint8Array, definition: FitDefinition, at: number, timeLeftOut: boolean): boolean {
    const { message } = definition;
    if (message === FIT_RECORD) return true;
    if (message === FIT_EVENT) {
      const kind = definition.fields.find((field) => field.number === 0);
      if (!kind) return false;
      const shift = timeLeftOut && kind.offset > definition.timeOffset ? 4 : 0;
      return FIT_EVENTS.includes(bytes[at + kind.offset - shift]);
    }
    const count = (this.#counts.get(message) ?? 0) + 1;
    this.#counts.set(message, count);
    return count <= MOST_OTHER_MESSAGES;
  }
}
