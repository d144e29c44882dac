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
    const message = 'The cogwright server cannot be reached. Start it with "npm start", then try again.';
    throw new ApiError(0, { code: 'not-reached', message });
  }
  if (!answer.ok) throw await refusal(answer);
  return (answer.status === 204 ? undefined : await answer.json()) as Answer;
}
