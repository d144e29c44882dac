import { afterAll } from 'vitest';
import { CheckedApi } from './checked-api.ts';
import { type TestServer, testServer } from './test-server.ts';

/** A server for all tests of a file, closed after them, and its API. To be awaited at the top of the file. */
export async function checkedServer(): Promise<{ server: TestServer; api: CheckedApi }> {
  const server = await testServer();
  afterAll(() => server.close());
  return { server, api: new CheckedApi(server.url) };
}
