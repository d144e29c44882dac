import { expect } from 'vitest';
import type { Route } from '../../server/http/define-route.ts';
import { apiRoutes } from '../../server/routes/api-routes.ts';
import { hutBike } from './made-rides.ts';

export interface Answered<Body> {
  readonly status: number;
  readonly body: Body;
}

/** What the tests look at; every answer was checked against its route's own schema before. */
// biome-ignore lint/suspicious/noExplicitAny: the shapes are checked at run time, by the server's own schemas
export type Loose = any;

const matches = (route: Route, method: string, path: string): boolean =>
  route.method === method.toLowerCase() &&
  new RegExp(`^/api${route.path.replaceAll('.', '\\.').replaceAll(/:\w+/g, '[^/]+')}$`).test(path);

/** Calls the API and holds every JSON answer against the schema that its route declares for that status. */
export class CheckedApi {
  constructor(
    readonly url: string,
    readonly headers: Record<string, string> = {},
  ) {}

  get = (path: string) => this.call('GET', path);
  post = (path: string, json: unknown) => this.call('POST', path, json);
  put = (path: string, json: unknown) => this.call('PUT', path, json);
  delete = (path: string) => this.call('DELETE', path);

  async call(method: string, path: string, json?: unknown): Promise<Answered<Loose>> {
    const response = await fetch(`${this.url}${path}`, {
      method,
      headers: { ...this.headers, ...(json !== undefined && { 'content-type': 'application/json' }) },
      body: json === undefined ? undefined : JSON.stringify(json),
    });
    return this.#checked(method, path, response);
  }

  /** Adds the bike of the made rides and gives its id. */
  async addHutBike(): Promise<string> {
    return (await this.post('/api/bikes', hutBike)).body.id;
  }

  /** Sends files as a form does. */
  async send(path: string, files: readonly { name: string; bytes: Uint8Array }[]): Promise<Answered<Loose>> {
    const form = new FormData();
    for (const { name, bytes } of files) form.append('files', new Blob([new Uint8Array(bytes)]), name);
    const response = await fetch(`${this.url}${path}`, { method: 'POST', headers: this.headers, body: form });
    return this.#checked('POST', path, response);
  }

  /** Waits until nothing is left to be worked out for any bike and every ride is over. */
  async settled(): Promise<void> {
    for (;;) {
      const { body: bikes } = await this.get('/api/bikes');
      const { body: rides } = await this.get('/api/rides');
      const over = rides.rides.every(({ status }: Loose) => status === 'done' || status === 'failed');
      if (over && bikes.bikes.every(({ pending }: Loose) => pending === 0)) return;
      await new Promise((resolve) => setTimeout(resolve, 25));
    }
  }

  async #checked(method: string, path: string, response: Response): Promise<Answered<Loose>> {
    const text = await response.text();
    const body = text === '' ? null : JSON.parse(text);
    const { status } = response;
    if (status >= 400) {
      expect(body).toMatchObject({ error: { code: expect.any(String), message: expect.any(String) } });
      return { status, body };
    }
    const route = apiRoutes.find((candidate) => matches(candidate, method, new URL(path, this.url).pathname));
    expect(route, `${method} ${path} is declared`).toBeDefined();
    const shape = route?.answers[status];
    expect(shape, `${method} ${path} declares ${status}`).toBeDefined();
    if (shape?.schema) {
      const result = shape.schema.safeParse(body);
      expect(result.error?.issues ?? [], `${method} ${path}`).toEqual([]);
    } else expect(body).toBeNull();
    return { status, body };
  }
}
