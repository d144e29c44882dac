import { parseHTML } from 'linkedom';
import { expect, it, vi } from 'vitest';
import { lateralSection } from '../../web/bike/lateral-section.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);
vi.stubGlobal(
  'ResizeObserver',
  class {
    observe() {}
  },
);

it('says nothing of where the guide pulley stands where no shift was judged, whatever else was seen', () => {
  const shown = (judgedShifts: number) => {
    const { detail } = madeUpFleet()[0];
    Object.assign(detail.report!.diagnosis.weighed, { judgedShifts, events: 2 });
    return lateralSection({ bike: detail, log: () => {} } as never);
  };
  expect(shown(60)).not.toBeNull();
  expect(shown(0)).toBeNull();
});
