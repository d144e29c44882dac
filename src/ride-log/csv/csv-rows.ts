import { counted } from '../../numeric/counted.ts';
import { GrowingColumn } from '../growing-column.ts';
import { orderRecords } from '../order-records.ts';
import { MOST_GEAR_RECORDS, MOST_RECORDS, type RideDraft, tooManyRecords } from '../ride-draft.ts';
import { gearChanges } from './gear-changes.ts';

const MEASURED = ['speedMps', 'cadenceRpm', 'powerW', 'distanceM'] as const;

/** One row as it was read. NaN for what is missing; teeth: 0 where the row names none, NaN where what it names cannot be read. */
export type CsvRow = Readonly<Record<'time' | (typeof MEASURED)[number] | 'rear' | 'front', number>>;

/**
 * The rows of a CSV ride as columns, in the file's order. They are kept until the file ends, since a change of gear shows only once
 * the rows are in order of time.
 */
export class CsvRows {
  readonly #file: string;
  readonly #columns = {
    time: new GrowingColumn(),
    speedMps: new GrowingColumn(),
    cadenceRpm: new GrowingColumn(),
    powerW: new GrowingColumn(),
    distanceM: new GrowingColumn(),
    rear: new GrowingColumn(),
    front: new GrowingColumn(),
  };
  /** 1 for a row that was left out: it only makes the gear unknown. */
  readonly #lost = new GrowingColumn();

  constructor(file: string) {
    this.#file = file;
  }

  add(row: CsvRow, lost = false): void {
    const most = MOST_RECORDS + MOST_GEAR_RECORDS;
    if (this.#lost.length >= most) throw tooManyRecords(this.#file, 'ride', most);
    for (const name of Object.keys(this.#columns) as (keyof CsvRow)[]) this.#columns[name].push(row[name]);
    this.#lost.push(lost ? 1 : 0);
  }

  /** Adds a row whose cells cannot be told apart. */
  addLost(named: { readonly rear: boolean; readonly front: boolean }): void {
    const none = { time: NaN, speedMps: NaN, cadenceRpm: NaN, powerW: NaN, distanceM: NaN };
    this.add({ ...none, rear: named.rear ? NaN : 0, front: named.front ? NaN : 0 }, true);
  }

  /** The time cells, to be turned into Unix milliseconds in place before `fill`. A view, good until the next row. */
  get time(): Float64Array {
    return this.#columns.time.values();
  }

  /**
   * Gives the draft its records, in the file's order, and its gear records. Rows that change the gear and measure nothing are no
   * records of the ride, unless no row of the file measures anything: then each is one.
   */
  fill(draft: RideDraft): void {
    const measures = this.#measures();
    const { usable, sorted, backwards } = this.#order(measures);
    const rear = this.#columns.rear.values();
    const front = this.#columns.front.values();
    const timeMs = this.time.map((ms, i) => (usable[i] ? ms : NaN));
    const { gears, changes, lost } = gearChanges({ timeMs, rear, front }, backwards);
    for (const gear of gears) draft.addGear(gear);
    const alone = (i: number): boolean => changes[i] === 1 && measures[i] === 0;
    const ofGearsOnly = !measures.includes(1);
    this.#addRecords(draft, (i) => ofGearsOnly || !alone(i));
    if (lost > 0)
      draft.warn(
        'gear-lost',
        `After ${counted(lost, 'row')} that cannot be read the gear asked for is not known until a row names it.`,
      );
    if (sorted && gears.length > 0 && timeMs.some((ms, i) => !Number.isNaN(ms) && rear[i] === 0 && front[i] === 0))
      draft.warn(
        'gear-order',
        'Empty gear cells were read as no change from the row before in time, not from the row above.',
      );
  }

  #addRecords(draft: RideDraft, wanted: (row: number) => boolean): void {
    const { speedMps, cadenceRpm, powerW, distanceM } = this.#columns;
    const [speed, cadence, power, distance] = [speedMps, cadenceRpm, powerW, distanceM].map((column) =>
      column.values(),
    );
    const lost = this.#lost.values();
    this.time.forEach((timeMs, i) => {
      if (lost[i] === 1 || !wanted(i)) return;
      draft.add({
        timeMs,
        speedMps: speed[i],
        cadenceRpm: cadence[i],
        powerW: power[i],
        distanceM: distance[i],
        pathM: NaN,
      });
    });
  }

  /** 1 for each row that measures anything. */
  #measures(): Uint8Array {
    const columns = MEASURED.map((name) => this.#columns[name].values());
    return Uint8Array.from(this.time, (_, i) => (columns.some((column) => !Number.isNaN(column[i])) ? 1 : 0));
  }

  /** Which rows have a time that holds, whether the rows were in another order than that of time, and whether that was the reverse. */
  #order(measures: Uint8Array): { readonly usable: Uint8Array; readonly sorted: boolean; readonly backwards: boolean } {
    const { time } = this;
    const usable = Uint8Array.from(time, (ms) => (Number.isNaN(ms) ? 0 : 1));
    const timed = [...time.keys()].filter((i) => usable[i] === 1);
    const measuring = timed.filter((i) => measures[i] === 1);
    const rows = measuring.length > 0 ? measuring : timed;
    if (rows.length === 0) return { usable, sorted: false, backwards: false };
    const times = Float64Array.from(rows, (row) => time[row]);
    const { order, sorted } = orderRecords(times, [0]);
    for (const row of rows) usable[row] = 0;
    for (const k of order) usable[rows[k]] = 1;
    let falling = 0;
    for (let k = 1; k < times.length; k++) falling += Math.sign(times[k - 1] - times[k]);
    return { usable, sorted, backwards: sorted && falling > 0 };
  }
}
