import { describe, expect, it } from 'vitest';
import { whichCauses } from '../../src/report/which-causes.ts';
import { sampleReport } from './sample-report.ts';

const { diagnosis } = sampleReport();
const { causes, weighed, onset, undecided } = diagnosis;
const all = { causes, weighed, onset, undecided };

describe('which list of causes speaks of today', () => {
  it('is that of all rides, and none speaks of the past, where nothing else is wrong by now', () => {
    for (const setting of ['same', 'untested', 'cured', 'unsettled'] as const) {
      const { now, sinceAlone, atFirst } = whichCauses({ ...diagnosis, now: { ...diagnosis.now, setting } });
      expect([now, sinceAlone, atFirst]).toEqual([all, false, null]);
    }
  });

  it('is that of the rides since where they name another fault: all rides then say what it was at first', () => {
    const since = { ...all, causes: causes.toReversed(), weighed: { ...weighed, rides: 1 } };
    const found = whichCauses({ ...diagnosis, anotherSince: since });
    expect(found).toEqual({ now: since, sinceAlone: true, atFirst: all });
  });

  it('is that of all rides where an adjustment went too far, though they say what it was at first', () => {
    const found = whichCauses({ ...diagnosis, now: { ...diagnosis.now, setting: 'overdone' } });
    expect(found).toEqual({ now: all, sinceAlone: false, atFirst: all });
  });
});
