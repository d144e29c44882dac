import { expect, it } from 'vitest';
import { zoomCentre } from '../../web/charts/timeline/zoom-centre.ts';

it('is the first place wanted that is in view, else the middle of it', () => {
  expect(zoomCentre([100, 200], [130, 150])).toBe(130);
  expect(zoomCentre([100, 200], [null, 190])).toBe(190);
  expect(zoomCentre([100, 200], [250, 190])).toBe(190);
  expect(zoomCentre([100, 200], [null, 250])).toBe(150);
  expect(zoomCentre([0, 200], [0])).toBe(0);
});
