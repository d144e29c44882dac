import { afterEach, describe, expect, it, vi } from 'vitest';
import type { FleetBike } from '../../web/add-rides/fleet.ts';
import { sendBike } from '../../web/add-rides/fleet-send.ts';
import type { BikeSummary } from '../../web/api/answers.ts';

afterEach(() => vi.unstubAllGlobals());

type Said = 'queued' | 'refused' | 'duplicate';

/** A folder with a ride for each of what the server says, a file of adjustments and a broken one. `here`: the bike is there before. */
const folder = (says: readonly Said[], here: boolean): FleetBike => ({
  folder: 'h1',
  bike: { name: 'Hut bike', chainrings: [32], cassette: [11, 13, 15, 17, 19], actuation: 'cable' },
  here: here ? ({ id: 'b1' } as BikeSummary) : null,
  doubt: null,
  rides: says.map((_, i) => new File(['x'], `${i}.fit`)),
  adjustments: [
    { file: new File(['at,parameter\n'], 'log.csv'), count: 1, fault: null },
    { file: new File(['x'], 'broken.csv'), count: null, fault: 'is broken' },
  ],
});

/** What is told of a folder that was sent, and what the server was asked. */
async function sent(says: readonly Said[], here = false) {
  const asked: string[] = [];
  const left = [...says];
  vi.stubGlobal('fetch', async (url: string, { method = 'GET', body }: RequestInit = {}) => {
    asked.push(`${method} ${url.replace('/api', '')}`);
    if (method === 'DELETE') return new Response(null, { status: 204 });
    const some = body instanceof FormData ? left.splice(0, body.getAll('files').length) : [];
    const files = some.map((status) => ({ name: 'a.fit', status, message: 'said' }));
    return Response.json({ id: 'b1', uploadId: `u${asked.length}`, files, added: 1, known: 0 });
  });
  return { asked, ...(await sendBike(folder(says, here))) };
}

const [make, send, remove, log] = [
  'POST /bikes',
  'POST /uploads?bike=b1',
  'DELETE /bikes/b1',
  'POST /bikes/b1/adjustments/file',
];

describe('a new folder none of whose rides is taken', () => {
  it('leaves no empty bike, and tells of its adjustments why they are not taken in', async () => {
    const unreadable = await sent(['refused']);
    expect(unreadable.asked).toEqual([make, send, remove]);
    expect(unreadable.bikeId).toBeNull();
    // the broken one is told of as such, whatever becomes of the bike
    expect(unreadable.adjustments).toEqual([
      {
        name: 'log.csv',
        status: 'refused',
        added: 0,
        message: expect.stringContaining('with a ride that can be read'),
      },
    ]);
    const known = await sent(['duplicate', 'refused']);
    expect(known.asked).toEqual([make, send, remove]);
    expect(known.adjustments[0].message).toContain('on another bike already');
  });
});

describe('a folder whose rides the server does not take now', () => {
  it.each([
    ['leaves no empty bike that was made for it', false, [make, send, remove]],
    ['leaves a bike that was there before', true, [send]],
  ] as const)('%s', async (_, here, requests) => {
    const asked: string[] = [];
    vi.stubGlobal('fetch', async (url: string, { method = 'GET', body }: RequestInit = {}) => {
      asked.push(`${method} ${url.replace('/api', '')}`);
      const refused = (status: number) => Response.json({ error: { code: 'busy', message: 'busy' } }, { status });
      // it has rides after all
      if (method === 'DELETE') return refused(409);
      if (body instanceof FormData) return refused(503);
      return Response.json({ id: 'b1' });
    });
    await expect(sendBike(folder(['queued'], here))).rejects.toMatchObject({ status: 503 });
    expect(asked).toEqual(requests);
  });
});

describe('a folder whose bike stands', () => {
  it.each([
    ['some of its rides are taken', ['refused', 'queued'], false, [make, send, log]],
    ['it has no rides', [], false, [make, log]],
    ['the bike was there before, whatever becomes of its rides', ['duplicate'], true, [send, log]],
  ] as const)('has its adjustments taken in, but for broken ones, where %s', async (_, says, here, requests) => {
    const { asked, bikeId, adjustments } = await sent(says, here);
    expect(asked).toEqual(requests);
    expect(bikeId).toBe('b1');
    expect(adjustments).toMatchObject([{ name: 'log.csv', status: 'done', added: 1 }]);
  });

  it('has more rides than one upload takes sent in several, and all of them followed', async () => {
    const { asked, uploadIds, rides } = await sent(Array<Said>(401).fill('queued'));
    expect(asked).toEqual([make, send, send, send, log]);
    expect(uploadIds).toEqual(['u2', 'u3', 'u4']);
    expect(rides).toHaveLength(401);
  });
});
