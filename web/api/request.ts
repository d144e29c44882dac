import type { Refusal } from './answers.ts';
import { ApiError } from './api-error.ts';

interface Ask {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'DELETE';
  /** Sent as JSON. */
  readonly body?: unknown;
  /** Sent as a form with files. */
  readonly form?: FormData;
  readonly signal?: AbortSignal;
}

async function refusal(answer: Response): Promise<ApiError> {
  try {
    const { error } = (await answer.json()) as { error: Refusal };
    return new ApiError(answer.status, error);
  } catch {
    const message = `The server answered ${answer.status} without giving a reason.`;
    return new ApiError(answer.status, { code: 'no-reason', message });
  }
}

/** Whether the server answers at all. */
const isRunning = (): Promise<boolean> =>
  fetch('/api/health').then(
    ({ ok }) => ok,
    () => false,
  );

const notReached = (): ApiError =>
  new ApiError(0, {
    code: 'not-reached',
    message: 'The cogwright server cannot be reached. Start it with "npm start", then try again.',
  });

/** A request that ended without an answer, though the server runs. */
const brokeOff = ({ form }: Ask): ApiError =>
  new ApiError(0, {
    code: 'broke-off',
    message: form
      ? 'The connection broke off while the files were sent, though the server runs. Send them again; what was kept already is not taken twice. If it breaks off again, see whether its disk is full.'
      : 'The connection broke off before the server had answered, though it runs. Try again.',
  });

/** Asks the server on this machine. `path` starts behind /api. Throws ApiError; an aborted request rejects as fetch does. */
export async function request<Answer>(path: string, ask: Ask = {}): Promise<Answer> {
  const headers: Record<string, string> = { accept: 'application/json' };
  if (ask.body !== undefined) headers['content-type'] = 'application/json';
  let answer: Response;
  try {
    answer = await fetch(`/api${path}`, {
      method: ask.method ?? 'GET',
      headers,
      body: ask.form ?? (ask.body === undefined ? undefined : JSON.stringify(ask.body)),
      signal: ask.signal,
    });
  } catch (error) {
    if (ask.signal?.aborted) throw error;
    throw (await isRunning()) ? brokeOff(ask) : notReached();
  }
  if (!answer.ok) throw await refusal(answer);
  return (answer.status === 204 ? undefined : await answer.json()) as Answer;
}
