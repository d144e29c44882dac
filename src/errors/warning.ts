/** Something the reader of a report must know that did not stop the work. `code` is stable, `message` is for people. */
export interface Warning {
  readonly code: string;
  readonly message: string;
}
