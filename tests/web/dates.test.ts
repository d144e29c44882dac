import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

/** Twelve hours ahead of UTC in May. */
const farAhead = 'Pacific/Auckland';

describe('inOwnZone', () => {
  const zoneBefore = process.env.TZ;
  let inOwnZone: typeof import('../../web/words/dates.ts').inOwnZone;
  beforeAll(async () => {
    process.env.TZ = farAhead;
    vi.resetModules();
    ({ inOwnZone } = await import('../../web/words/dates.ts'));
  });
  afterAll(() => {
    if (zoneBefore === undefined) delete process.env.TZ;
    else process.env.TZ = zoneBefore;
  });

  it('dates an adjustment as the log beside it does', () => {
    const sentence = '2026-05-03, cable tension +3 clicks: 7 of 64 shifts went wrong before, 0 of 62 after: it helped.';
    expect(inOwnZone(sentence, ['2026-05-02T18:30:00Z', '2026-05-03T18:30:00Z'])).toBe(
      '4 May 2026, cable tension +3 clicks: 7 of 64 shifts went wrong before, 0 of 62 after: it helped.',
    );
  });

  it('says that a day is one of UTC where its day here cannot be told', () => {
    const twice = ['2026-05-03T08:00:00Z', '2026-05-03T18:30:00Z'];
    expect(inOwnZone('what was done on 2026-05-03 (pulley gap).', twice)).toBe(
      'what was done on 2026-05-03 (UTC) (pulley gap).',
    );
    expect(inOwnZone('Only rides since 2026-05-01 were weighed', twice)).toContain('since 2026-05-01 (UTC) were');
  });

  it('turns a moment with its time of day', () => {
    expect(inOwnZone('It began suddenly, about 2026-05-03 18:30 UTC (92 %).', [])).toBe(
      'It began suddenly, about 4 May 2026, 06:30 (92 %).',
    );
  });
});
