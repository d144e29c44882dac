/** The server said no, or could not be reached (`status` 0). `message` is fit to be shown. */
export class ApiError extends Error {
  override readonly name = 'ApiError';
  readonly code: string;
  readonly status: number;
  /** What the server adds to some refusals; undefined for most. */
  readonly details: unknown;

  constructor(code: string, status: number, message: string, details?: unknown) {
    super(message);
    this.code = code;
    this.status = status;
    this.details = details;
  }
}
