import type { GearRecords } from '../../ride-log/ride-log.ts';

/** What the gear records say of one end, cogs or rings. Columns share the index of the gear records. */
export interface RecordedPart {
  /** Teeth named, 0 = none; what someone configured, right or wrong. */
  readonly teeth: Uint8Array;
  /** Every tooth count named, once, rising. */
  readonly sizes: readonly number[];
  /** Positions as the recorder counts them, from 1; 0 = none. For what they mean ask `placeOf`. */
  readonly position: Uint8Array;
  /** Every position named, once, rising. */
  readonly positions: readonly number[];
  /** The size that the recorder gives position 1. */
  readonly countsFrom: 'smallest' | 'largest';
  /** 1 where a record names teeth that cannot be; absent where none does. */
  readonly lost: Uint8Array | undefined;
}

/** The gear records of a ride in one form, whatever recorder wrote them. */
export interface RecordedGears {
  readonly rear: RecordedPart;
  readonly front: RecordedPart;
}

/**
 * Puts the gear records into one form: the one place that settles which way positions count. They count from the innermost (the largest cog,
 * the smallest ring), but rear ones from the smallest cog where the teeth beside them say so, as some recorders have it.
 */
export function recordedGears(records: GearRecords): RecordedGears {
  const { rearTeeth, rearPosition, rearLost, frontTeeth, frontPosition, frontLost } = records;
  return {
    rear: partOf(rearTeeth, rearPosition, rearLost, risesWithTeeth(rearPosition, rearTeeth) ? 'smallest' : 'largest'),
    front: partOf(frontTeeth, frontPosition, frontLost, 'smallest'),
  };
}

/** Tooth counts that gear records name, each once, rising; right or wrong, a recorder names the same on every ride of a bike. */
export interface RecordedTeeth {
  readonly rear: readonly number[];
  readonly front: readonly number[];
}

/** The tooth counts that the gear records name. */
export function recordedTeeth(records: GearRecords): RecordedTeeth {
  const { rear, front } = recordedGears(records);
  return { rear: rear.sizes, front: front.sizes };
}

/** Place of what a record's position stands for among `count` cogs or rings, 0 = the smallest; -1 where it names none of them. */
export function placeOf({ position, countsFrom }: RecordedPart, record: number, count: number): number {
  const counted = position[record];
  if (counted < 1 || counted > count) return -1;
  return countsFrom === 'smallest' ? counted - 1 : count - counted;
}

const partOf = (
  teeth: Uint8Array,
  position: Uint8Array,
  lost: Uint8Array | undefined,
  countsFrom: RecordedPart['countsFrom'],
): RecordedPart => ({ teeth, sizes: named(teeth), position, positions: named(position), countsFrom, lost });

const named = (values: Uint8Array): number[] => [...new Set(values)].filter((value) => value > 0).sort((a, b) => a - b);

/** Whether positions rise with the teeth beside them, from one record to the next, more often than they fall. */
function risesWithTeeth(position: Uint8Array, teeth: Uint8Array): boolean {
  let rising = 0;
  for (let i = 1; i < teeth.length; i++) {
    if (teeth[i] === 0 || teeth[i - 1] === 0 || position[i] === 0 || position[i - 1] === 0) continue;
    rising += Math.sign((teeth[i] - teeth[i - 1]) * (position[i] - position[i - 1]));
  }
  return rising > 0;
}
