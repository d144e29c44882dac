/** The messages and fields that a ride needs: global message number, then field number with the size it must have. */
export const FIT_WANTED: ReadonlyMap<number, ReadonlyMap<number, number>> = new Map([
  /** file_id: type */
  [0, new Map([[0, 1]])],
  /** sport: sport, sub_sport */
  [
    12,
    new Map([
      [0, 1],
      [1, 1],
    ]),
  ],
  /** session: start_time, sport, sub_sport, total_elapsed_time */
  [
    18,
    new Map([
      [2, 4],
      [5, 1],
      [6, 1],
      [7, 4],
    ]),
  ],
  /** record: position_lat, position_long, cadence, distance, speed, power, compressed_speed_distance, cadence256, fractional_cadence, enhanced_speed */
  [
    20,
    new Map([
      [0, 4],
      [1, 4],
      [4, 1],
      [5, 4],
      [6, 2],
      [7, 2],
      [8, 3],
      [52, 2],
      [53, 1],
      [73, 4],
    ]),
  ],
  /** event: event, event_type, data, front_gear_num, front_gear, rear_gear_num, rear_gear */
  [
    21,
    new Map([
      [0, 1],
      [1, 1],
      [3, 4],
      [9, 1],
      [10, 1],
      [11, 1],
      [12, 1],
    ]),
  ],
  /** device_info: device_index, device_type, source_type */
  [
    23,
    new Map([
      [0, 1],
      [1, 1],
      [25, 1],
    ]),
  ],
]);

/** Global message numbers. */
export const FIT_RECORD = 20;
/** Of events: the timer, changes of gear. */
export const FIT_EVENT = 21;
/** The events that a ride needs: timer, change of front gear, change of rear gear. */
export const FIT_EVENTS: readonly number[] = [0, 42, 43];
/** Of messages other than records and events, no more than this are read. */
export const MOST_OTHER_MESSAGES = 5000;

/** Field number of the time stamp, the same in every message. */
export const FIT_TIMESTAMP = 253;
/** The value of a time stamp that says nothing. */
export const FIT_NO_TIME = 0xffffffff;
