import { afterEach, describe, expect, it, vi } from 'vitest';
import { request } from '../../web/api/request.ts';

afterEach(() => vi.unstubAllGlobals());

/** Stands in for the network: what each address gives. */
function network(answers: Readonly<Record<string, () => Response>>): void {
  vi.stubGlobal('fetch', async (address: string) => {
    const answer = answers[address];
    if (!answer) throw new TypeError('Failed to fetch');
    return answer();
  });
}

const upload = () => request('/uploads?bike=auto', { method: 'POST', form: new FormData() });

describe('a request without an answer', () => {
  it('is told apart from a server that is gone', async () => {
    network({ '/api/health': () => Response.json({ ok: true }) });
    await expect(upload()).rejects.toMatchObject({ status: 0, code: 'broke-off' });
    await expect(upload()).rejects.toThrow(/while the files were sent.*not taken twice/);
    await expect(request('/bikes')).rejects.toThrow(/before the server had answered/);
  });

  it('says that the server cannot be reached where it is gone, or something else stands in its place', async () => {
    network({});
    await expect(upload()).rejects.toMatchObject({ status: 0, code: 'not-reached' });
    network({ '/api/health': () => new Response('', { status: 502 }) });
    await expect(upload()).rejects.toMatchObject({ code: 'not-reached' });
  });

  it('is left as it is where it was given up', async () => {
    network({ '/api/health': () => Response.json({ ok: true }) });
    await expect(request('/bikes', { signal: AbortSignal.abort() })).rejects.toThrow('Failed to fetch');
  });
});

describe('a refusal', () => {
  it('carries the server’s own words and what is said of each file', async () => {
    const error = {
      code: 'disk-full',
      message: 'The disk is full.',
      details: [{ path: 'a.fit', message: 'not written' }],
    };
    network({ '/api/uploads?bike=auto': () => Response.json({ error }, { status: 507 }) });
    await expect(upload()).rejects.toMatchObject({ status: 507, ...error });
  });
});
