import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { get, request } from 'node:http';
import supertest from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isLoopback } from '../../server/strangers/loopback.ts';
import { hutBike } from './made-rides.ts';
import { type TestServer, testServer } from './test-server.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

const agent = (): ReturnType<typeof supertest> => supertest(server.url);

describe('the Host header', () => {
  const ask = (host: string | undefined, to = server): Promise<{ status: number; body: string }> =>
    new Promise((resolve, reject) => {
      const asking = request(`${to.url}/api/health`, { setHost: false, headers: host === undefined ? {} : { host } });
      asking.on('error', reject);
      asking.on('response', (response) => {
        let body = '';
        response.on('data', (chunk) => {
          body += chunk;
        });
        response.on('end', () => resolve({ status: response.statusCode ?? 0, body }));
      });
      asking.end();
    });
  const own = (name: string): string => `${name}:${new URL(server.url).port}`;

  it.each(['127.0.0.1', 'localhost', 'LOCALHOST', '[::1]'])('%s is its own', async (name) => {
    expect((await ask(own(name))).status).toBe(200);
  });

  it.each(['example.org', 'localhost.example.org', '127.0.0.1.example.org', '192.168.1.5', '0.0.0.0', '127.0.0.1@x'])(
    '%s is not',
    async (name) => {
      const { status, body } = await ask(own(name));
      expect(status).toBe(403);
      expect(JSON.parse(body).error.code).toBe('host-refused');
    },
  );

  it('with another port, or none, is not', async () => {
    expect((await ask('127.0.0.1:1')).status).toBe(403);
    expect((await ask('127.0.0.1')).status).toBe(403);
    expect((await ask(undefined)).status).toBe(400);
  });
});

describe('other sites', () => {
  it.each([
    ['an Origin of another site', { origin: 'https://example.org' }],
    ['an Origin on another port of this machine', { origin: 'http://127.0.0.1:1' }],
    ['no Origin to speak of', { origin: 'null' }],
    ['what the browser calls cross-site', { 'sec-fetch-site': 'cross-site' }],
    ['what the browser calls same-site', { 'sec-fetch-site': 'same-site' }],
  ])('cannot write: %s', async (_what, headers) => {
    const before = (await agent().get('/api/bikes')).body.bikes.length;
    const answer = await agent().post('/api/bikes').set(headers).send(hutBike);
    expect(answer.status).toBe(403);
    expect(answer.body.error.code).toBe('origin-refused');
    expect((await agent().get('/api/bikes')).body.bikes).toHaveLength(before);
  });

  it('cannot read the API either, but may link to the page', async () => {
    const cross = { 'sec-fetch-site': 'cross-site' };
    expect((await agent().get('/api/bikes').set(cross)).status).toBe(403);
    for (const path of ['/API/bikes', '/Api/bikes', '//api/bikes', '/%61pi/bikes'])
      expect((await agent().get(path).set(cross)).headers['content-type'], path).not.toContain('json');
    expect(
      (
        await agent()
          .get('/')
          .set({ ...cross, 'sec-fetch-mode': 'navigate' })
      ).status,
    ).toBe(200);
  });

  it('cannot hide a write in a form', async () => {
    for (const type of ['text/plain', 'application/x-www-form-urlencoded'])
      expect((await agent().post('/api/bikes').type(type).send(JSON.stringify(hutBike))).status).toBe(415);
  });

  it('get no leave to read across origins', async () => {
    const answer = await agent().get('/api/health').set('origin', 'https://example.org');
    expect(answer.headers['access-control-allow-origin']).toBeUndefined();
    expect((await agent().options('/api/bikes').set('origin', 'https://example.org')).status).toBeGreaterThanOrEqual(
      400,
    );
  });

  it('the own page can write', async () => {
    const answer = await agent()
      .post('/api/bikes')
      .set({ origin: server.url, 'sec-fetch-site': 'same-origin' })
      .send(hutBike);
    expect(answer.status).toBe(201);
  });
});

describe('headers', () => {
  it.each(['/', '/api/health', '/assets/main-1a2b.js', '/api/nothing'])(
    'of %s keep the page to itself',
    async (path) => {
      const { headers } = await agent().get(path);
      const policy = headers['content-security-policy'];
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self'");
      expect(policy).toContain("style-src 'self'");
      expect(policy).toContain("connect-src 'self'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toMatch(/unsafe|https?:/);
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['referrer-policy']).toBe('no-referrer');
      expect(headers['cross-origin-resource-policy']).toBe('same-origin');
      expect(headers['x-powered-by']).toBeUndefined();
    },
  );
});

describe('bodies', () => {
  it('are bounded and must be JSON', async () => {
    const large = await agent()
      .post('/api/bikes')
      .type('application/json')
      .send(`"${'x'.repeat(300_000)}"`);
    expect(large.status).toBe(413);
    expect(large.body.error.code).toBe('too-large');
    const broken = await agent().post('/api/bikes').type('application/json').send('{"name":');
    expect(broken.body.error.code).toBe('bad-json');
    const proto = await agent().post('/api/bikes').type('application/json').send('{"__proto__":{"name":"x"}}');
    expect(proto.status).toBe(400);
  });
});

describe('the page', () => {
  it('is served fresh, its hashed files for a year, and its own addresses lead to it', async () => {
    const index = await agent().get('/');
    expect(index.headers['cache-control']).toBe('no-cache');
    expect(index.text).toContain('<title>page</title>');
    expect((await agent().get('/bikes/0123456789abcdef')).text).toBe(index.text);
    const asset = await agent().get('/assets/main-1a2b.js');
    expect(asset.headers['cache-control']).toBe('public, max-age=31536000, immutable');
    expect((await agent().get('/assets/gone-1234.js')).status).toBe(404);
    expect((await agent().get('/favicon.ico')).status).toBe(404);
    expect((await agent().get('/..%2f..%2fcogwright.sqlite')).status).toBe(404);
    expect((await agent().get('/assets/..%2f..%2fdata%2fcogwright.sqlite')).status).toBe(404);
  });
});

describe('a token', () => {
  const token = 'a-token-of-our-own-01';
  let guarded: TestServer;
  beforeAll(async () => {
    guarded = await testServer({ listen: '0.0.0.0', token });
  });
  afterAll(() => guarded.close());

  it('is wanted for everything', async () => {
    for (const path of ['/', '/api/health', '/api/bikes', '/assets/main-1a2b.js', '/api/openapi.json']) {
      const answer = await supertest(guarded.url).get(path);
      expect(answer.status, path).toBe(401);
      expect(answer.body.error.code).toBe('token-missing');
    }
  });

  it('opens as a header, and a wrong one does not', async () => {
    const bearing = (text: string) => supertest(guarded.url).get('/api/bikes').set('authorization', `Bearer ${text}`);
    expect((await bearing(token)).status).toBe(200);
    for (const wrong of ['x', `${token}x`, token.slice(1), token.toUpperCase()])
      expect((await bearing(wrong)).body.error.code).toBe('token-wrong');
  });

  it('opens the page once by its address, then by a cookie that is not the token', async () => {
    const opening = await supertest(guarded.url).get(`/?token=${token}`);
    expect(opening.status).toBe(303);
    expect(opening.headers.location).toBe('/');
    const [cookie] = opening.headers['set-cookie'] as unknown as string[];
    expect(cookie).toMatch(/HttpOnly.*SameSite=Lax/);
    expect(cookie).not.toContain(token);
    const [pair] = cookie.split(';');
    expect((await supertest(guarded.url).get('/api/bikes').set('cookie', `other=1; ${pair}`)).status).toBe(200);
    expect((await supertest(guarded.url).get('/api/bikes').set('cookie', `${pair}x`)).status).toBe(401);
    expect((await supertest(guarded.url).get('/api/bikes').set('cookie', `cogwright-token=${token}`)).status).toBe(401);
    expect((await supertest(guarded.url).get('/?token=wrong')).status).toBe(401);
  });

  it('is asked for on a page where a person comes without it, and in JSON where a program does', async () => {
    const asPerson = (path: string) =>
      supertest(guarded.url).get(path).set('accept', 'text/html,application/xhtml+xml,*/*;q=0.8');
    for (const [path, said] of [
      ['/', 'wants a token'],
      ['/bikes/0123456789abcdef', 'wants a token'],
      ['/?token=wrong', 'not the right one'],
    ]) {
      const answer = await asPerson(path);
      expect(answer.status, path).toBe(401);
      expect(answer.headers['content-type'], path).toContain('text/html');
      expect(answer.text, path).toContain(said);
      expect(answer.text).toMatch(/<form method="get">[\s\S]*<input[^>]* name="token"/);
      expect(answer.text).not.toMatch(/<script|<link|https?:/);
    }
    expect((await asPerson('/api/bikes')).body.error.code).toBe('token-missing');
  });

  it('is styled by what stands in its page, which alone the page allows', async () => {
    const answer = await supertest(guarded.url).get('/').set('accept', 'text/html');
    const style = /<style>([\s\S]*)<\/style>/.exec(answer.text)?.[1] ?? '';
    const digest = createHash('sha256').update(style).digest('base64');
    expect(answer.headers['content-security-policy']).toBe(
      `default-src 'none'; style-src 'sha256-${digest}'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'`,
    );
    const page = readFileSync('web/styles/tokens.css', 'utf8');
    const colours = [...style.matchAll(/(--[a-z-]+: light-dark\([^;]*;)/g)].map(([, colour]) => colour);
    expect(colours.length).toBeGreaterThan(4);
    for (const colour of colours) expect(page).toContain(colour);
  });

  it('opens with blanks about it, and as the whole address that was printed', async () => {
    for (const given of [
      ` ${token}`,
      `${token}\n`,
      `http://192.0.2.1:4173/?token=${token}`,
      `192.0.2.1/?token=${token} `,
    ]) {
      const opening = await supertest(guarded.url).get('/').query({ token: given });
      expect(opening.status, given).toBe(303);
    }
    for (const wrong of [`${token} x`, `http://192.0.2.1/?token=${token}x`, `http://192.0.2.1/?other=${token}`])
      expect((await supertest(guarded.url).get('/').query({ token: wrong })).status, wrong).toBe(401);
  });

  it('leads to the address it was asked for at, and to no other server', async () => {
    const to = async (path: string): Promise<string> => (await supertest(guarded.url).get(path)).headers.location;
    expect(await to(`/bikes/0123456789abcdef?token=${token}`)).toBe('/bikes/0123456789abcdef');
    expect(await to(`/rides/ab?event=shift-1&token=${token}`)).toBe('/rides/ab?event=shift-1');
    const abroad = await new Promise((resolve) => {
      const { hostname, port } = new URL(guarded.url);
      get({ hostname, port, path: `//example.org?token=${token}` }, (answer) => {
        answer.resume();
        resolve(answer.headers.location);
      });
    });
    expect(abroad).toBe('/');
    const asked = await supertest(guarded.url).get('/rides/ab?event=%22%3E%3Cscript%3E').set('accept', 'text/html');
    expect(asked.text).toContain('<input type="hidden" name="event" value="&quot;&gt;&lt;script&gt;">');
  });

  it('does not stand in the log', () => {
    expect(JSON.stringify(guarded.logged)).not.toContain(token);
  });

  it('that is right may have any number of pages open, whose streams of news never end', async () => {
    const headers = { authorization: `Bearer ${token}` };
    const leaving = new AbortController();
    for (let i = 0; i < 25; i++) {
      const stream = await fetch(`${guarded.url}/api/events`, { headers, signal: leaving.signal });
      expect(stream.status, `stream ${i + 1}`).toBe(200);
    }
    expect((await fetch(`${guarded.url}/api/bikes`, { headers })).status).toBe(200);
    leaving.abort();
  });

  it('cannot be guessed without end', async () => {
    let last = 0;
    for (let i = 0; i < 25; i++)
      last = (await supertest(guarded.url).get('/api/bikes').set('authorization', `Bearer guess-${i}`)).status;
    expect(last).toBe(429);
    // the right one among many guesses is not told from them
    const right = await supertest(guarded.url).get('/api/bikes').set('authorization', `Bearer ${token}`);
    expect(right.status).toBe(429);
    expect(Number(right.headers['retry-after'])).toBeGreaterThan(0);
  });
});

describe('loopback', () => {
  it.each(['127.0.0.1', '127.8.8.8', '::1', 'localhost'])('%s is', (address) => expect(isLoopback(address)).toBe(true));
  it.each(['0.0.0.0', '::', '192.168.0.2', '127.example.org', '1270.0.0.1', 'example.org'])('%s is not', (address) =>
    expect(isLoopback(address)).toBe(false),
  );
});
