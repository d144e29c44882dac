import { describe, expect, it } from 'vitest';
import { findRoute, makeRoutes } from '../../web/router/router.ts';

const [home, bike, sheet] = [() => undefined, () => undefined, () => undefined];
const routes = makeRoutes({ '/': home, '/bikes/:bikeId': bike, '/bikes/:bikeId/sheet': sheet });

describe('findRoute', () => {
  it('finds the view and the parts of the path', () => {
    expect(findRoute(routes, '/')?.view).toBe(home);
    expect(findRoute(routes, '/bikes/a%20b/sheet')).toEqual({ view: sheet, parts: { bikeId: 'a b' } });
    expect(findRoute(routes, '/bikes/1/')?.view).toBe(bike);
  });

  it('is null where nothing fits', () => {
    expect(findRoute(routes, '/bikes/1/more/than/that')).toBeNull();
    expect(findRoute(routes, '/nowhere')).toBeNull();
  });

  it('is null for a path that cannot be decoded', () => {
    expect(findRoute(routes, '/bikes/%E0%A4%A')).toBeNull();
  });
});
