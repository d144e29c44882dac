import { type ClientRequest, type IncomingMessage, request } from 'node:http';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestServer, testServer } from './test-server.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

const ask = (method: string): Promise<{ asking: ClientRequest; response: IncomingMessage }> =>
  new Promise((resolve, reject) => {
    const asking = request(`${server.url}/api/events`, { method, agent: false });
    asking.on('error', reject).on('response', (response) => resolve({ asking, response }));
    asking.end();
  });

describe('the stream of changes', () => {
  it('drops what is told after its end, as while the server stops', async () => {
    const { response } = await ask('GET');
    const ended = new Promise((resolve) => response.on('end', resolve).resume());
    const faults: unknown[] = [];
    const note = (error: unknown): void => void faults.push(error);
    process.on('uncaughtException', note);
    server.services.streams.endAll();
    server.services.hub.tell({ type: 'gone', rideId: '0123456789abcdef' });
    await ended;
    await new Promise((resolve) => setTimeout(resolve, 50));
    process.off('uncaughtException', note);
    expect(faults).toEqual([]);
  });

  it('is cut off for a listener that reads nothing, and keeps nothing for it', async () => {
    const { response } = await ask('GET');
    response.pause();
    const cutOff = new Promise((resolve) => response.on('error', resolve).on('close', resolve));
    const { hub } = server.services;
    const rideId = 'x'.repeat(100_000);
    for (let i = 0; i < 400; i++) {
      hub.tell({ type: 'gone', rideId });
      await new Promise((resolve) => setImmediate(resolve));
    }
    response.resume();
    await cutOff;
    expect(response.complete).toBe(false);
  });

  it('ends at once for who asks for its headers alone', async () => {
    const { response } = await ask('HEAD');
    expect(response.statusCode).toBe(200);
    expect(response.headers['content-type']).toContain('text/event-stream');
    await new Promise((resolve) => response.on('end', resolve).resume());
  });
});
