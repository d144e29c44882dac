import { expect, it } from 'vitest';
import { needsHands } from '../../web/bikes/needs-hands.ts';

const bike = (state: object, workPart: string | null = null, workshopMark: object | null = null) =>
  ({ state: { word: 'watch', underWay: false, dangers: [], ...state }, workPart, workshopMark }) as never;

it('a bike asks for hands by a mark of its keeper, by its state, by what can hurt, or by a step that begins with a part', () => {
  expect(needsHands(bike({ word: 'service' }))).toBe(true);
  expect(needsHands(bike({ word: 'too little data', dangers: ['The chain came off.'] }))).toBe(true);
  expect(needsHands(bike({}, 'chain'))).toBe(true);
  expect(needsHands(bike({ word: 'fine' }, null, { on: null, note: '' }))).toBe(true);
  expect(needsHands(bike({ underWay: true }, null, { on: null, note: '' }))).toBe(true);
  // ride on, or ease off
  expect(needsHands(bike({}))).toBe(false);
  expect(needsHands(bike({ word: 'fine' }))).toBe(false);
  expect(needsHands(bike({ word: 'service', underWay: true, dangers: ['The chain came off.'] }))).toBe(false);
});
