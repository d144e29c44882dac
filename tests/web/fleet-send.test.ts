import { afterEach, expect, it, vi } from 'vitest';
import type { FleetBike } from '../../web/add-rides/fleet.ts';
import { sendBike } from '../../web/add-rides/fleet-send.ts';

afterEach(() => vi.unstubAllGlobals());

/** What is told of a new folder with a ride and a file of adjustments, where the server says this of the ride. */
async function sent(status: 'refused' | 'duplicate') {
  const made = { id: 'b1', uploadId: 'u1', files: [{ name: 'a.fit', status, message: 'said' }] };
  vi.stubGlobal('fetch', async (_url: string, { method = 'GET' }: RequestInit = {}) =>
    method === 'DELETE' ? new Response(null, { status: 204 }) : Response.json(made),
  );
  const bike = { name: 'Hut bike', chainrings: [32], cassette: [11, 13], actuation: 'cable' };
  const adjustments = [{ file: new File(['x'], 'log.csv'), count: 1, fault: null }];
  const folder = { folder: 'h1', bike, here: null, doubt: null, rides: [new File(['x'], 'a.fit')], adjustments };
  return sendBike(folder as unknown as FleetBike);
}

it('tells of the adjustments of a bike that is not made, and why they are not taken in', async () => {
  const unreadable = await sent('refused');
  expect(unreadable.bikeId).toBeNull();
  expect(unreadable.adjustments).toMatchObject([{ name: 'log.csv', status: 'refused', added: 0 }]);
  expect(unreadable.adjustments[0].message).toContain('with a ride that can be read');
  expect((await sent('duplicate')).adjustments[0].message).toContain('on another bike already');
});
