import { CogwrightError } from './cogwright-error.ts';

/** The command was called in a way that cannot be carried out. The message says what was given and what is allowed. */
export class UsageError extends CogwrightError {
  override readonly name = 'UsageError';
  readonly code = 'usage';
}
