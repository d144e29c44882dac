import { expect, it } from 'vitest';
import { ridesElsewhere } from '../../web/add-rides/rides-elsewhere.ts';
import type { TakenRide } from '../../web/api/answers.ts';

type Status = TakenRide['status'];

it.each<[Status[], boolean]>([
  [['duplicate'], true],
  [['duplicate', 'duplicate'], true],
  // a file that cannot be read makes none of the others new
  [['duplicate', 'refused'], true],
  [['duplicate', 'queued'], false],
  [['refused'], false],
  [['queued', 'refused'], false],
  [[], false],
])('rides of which the server says %j are on another bike: %s', (statuses, elsewhere) => {
  expect(ridesElsewhere(statuses.map((status) => ({ status })))).toBe(elsewhere);
});
