/** One entry before it is checked, and where it stands in the file. */
export interface AdjustmentEntry {
  /** `line 3` of a CSV, `entry 2` of a JSON list. */
  readonly place: string;
  /** `column` in a CSV, `key` in JSON. */
  readonly cell: 'column' | 'key';
  readonly fields: Readonly<Record<string, unknown>>;
}
