import { parseHTML } from 'linkedom';
import { expect, it, vi } from 'vitest';
import { bikeWords } from '../../src/report/words/bike-words.ts';
import { measuredRollout } from '../../src/report/words/measured-rollout.ts';
import { drivetrainSection } from '../../web/bike/drivetrain-section.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

const rides = (...all: (number | null)[]) => all.map((rolloutMm) => ({ rolloutMm }));

it('tells the rollout that the rides show, and of rides that differ from where to where', () => {
  expect(measuredRollout([])).toBeNull();
  expect(measuredRollout(rides(null))).toBeNull();
  expect(measuredRollout(rides(null, 2301.6))).toEqual({ mm: '2302', how: 'measured with these teeth from one ride' });
  expect(measuredRollout(rides(2310, 2290, 2297))).toEqual({
    mm: '2297',
    how: 'measured with these teeth from 3 rides',
  });
  expect(measuredRollout(rides(2199, 1987))).toEqual({
    mm: '1987 to 2199',
    how: 'measured with these teeth from 2 rides, which differ',
  });
});

/** A bike of which nobody wrote down the wheel, and that its rides measure at 2310 mm. */
function withoutWheel() {
  const { detail } = madeUpFleet()[0];
  const { rolloutMm: _, ...bike } = detail.bike;
  const report = { ...detail.report!, bike };
  for (const ride of report.rides) ride.rolloutMm = 2310;
  return { ...detail, bike, report };
}

it('says of a wheel that nobody wrote down what was measured, in the page and in the report', () => {
  const bike = withoutWheel();
  const wheel = (): string => {
    const section = drivetrainSection({ bike, refresh: async () => {} } as never);
    return [...section.querySelectorAll('.facts div')].map(({ textContent }) => textContent).join('|');
  };
  expect(wheel()).toContain('|Wheel2310 mm rollout, measured with these teeth from 6 rides|');
  expect(bikeWords(bike.report)).toContain('rollout 2310 mm (measured with these teeth from 6 rides)');
  for (const ride of bike.report.rides) ride.rolloutMm = null;
  expect(wheel()).toContain('|Wheelnot known yet');
  expect(bikeWords(bike.report)).toContain('rollout not known');
});
