/**
 * How many rides began before a moment: where a mark of that moment stands among rides in order of time.
 *
 * @param starts ISO times of the rides
 * @param at ISO time
 */
export const ridesBefore = (starts: readonly string[], at: string): number =>
  starts.filter((start) => Date.parse(start) < Date.parse(at)).length;
