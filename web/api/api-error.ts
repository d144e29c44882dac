import type { Refusal } from './answers.ts';

/** The server said no, or could not be reached (`status` 0). `message` is fit to be shown. */
export class ApiError extends Error {
  override readonly name = 'ApiError';
  readonly code: string;
  readonly status: number;
  /** What is wrong with each file or key; empty for most refusals. */
  readonly details: NonNullable<Refusal['details']>;

  constructor(status: number, { code, message, details = [] }: Refusal) {
    super(message);
    this.code = code;
    this.status = status;
    this.details = details;
  }
}
