import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

/** Twelve hours ahead of UTC in May. */
const farAhead = 'Pacific/Auckland';

const zoneBefore = process.env.TZ;
let dates: typeof import('../../web/words/dates.ts');
beforeAll(async () => {
  process.env.TZ = farAhead;
  vi.resetModules();
  dates = await import('../../web/words/dates.ts');
});
afterAll(() => {
  if (zoneBefore === undefined) delete process.env.TZ;
  else process.env.TZ = zoneBefore;
});

describe('fieldMoment', () => {
  it("keeps the seconds of a moment that was not touched, and takes another by the reader's clock", () => {
    const before = '2026-05-03T18:30:45Z';
    expect(dates.fieldMoment(dates.fieldTime(new Date(before)), before)).toBe(before);
    expect(dates.fieldMoment('2026-05-04T06:31', before)).toBe('2026-05-03T18:31:00.000Z');
    expect(dates.fieldMoment('')).toBe('');
  });

  it('takes a year of five digits for no moment', () => {
    expect(dates.fieldMoment('20266-05-03T14:05')).toBe('');
    expect(dates.fieldMoment('20266-05-03T14:05', '2026-05-03T18:30:45Z')).toBe('');
  });
});

describe('inOwnZone', () => {
  it('dates an adjustment as the log beside it does', () => {
    const sentence = '2026-05-03, cable tension +3 clicks: 7 of 64 shifts went wrong before, 0 of 62 after: it helped.';
    expect(dates.inOwnZone(sentence, ['2026-05-02T18:30:00Z', '2026-05-03T18:30:00Z'])).toBe(
      '4 May 2026, cable tension +3 clicks: 7 of 64 shifts went wrong before, 0 of 62 after: it helped.',
    );
  });

  it('says that a day is one of UTC where its day here cannot be told', () => {
    const twice = ['2026-05-03T08:00:00Z', '2026-05-03T18:30:00Z'];
    expect(dates.inOwnZone('what was done on 2026-05-03 (pulley gap).', twice)).toBe(
      'what was done on 2026-05-03 (UTC) (pulley gap).',
    );
    expect(dates.inOwnZone('Only rides since 2026-05-01 were weighed', twice)).toContain('since 2026-05-01 (UTC) were');
  });

  it('dates a ride by when it began', () => {
    const [adjusted, ridden] = ['2026-05-03T08:00:00Z', '2026-05-03T18:30:00Z'];
    const words = (sentence: string) => dates.inOwnZone(sentence, [adjusted], [ridden, '2026-05-05T18:30:00Z']);
    expect(words('since the ride of 2026-05-03 the bike shifts well')).toBe(
      'since the ride of 4 May 2026 the bike shifts well',
    );
    expect(words('Only rides since 2026-05-05 were weighed')).toBe('Only rides since 6 May 2026 were weighed');
    expect(words('the ride of 2026-05-09; what was done on 2026-05-03')).toBe(
      'the ride of 2026-05-09 (UTC); what was done on 3 May 2026',
    );
  });

  it('turns a moment with its time of day', () => {
    expect(dates.inOwnZone('It began suddenly, about 2026-05-03 18:30 UTC (92 %).', [])).toBe(
      'It began suddenly, about 4 May 2026, 06:30 (92 %).',
    );
  });
});

describe('fromRideClock', () => {
  it('reads what rideClock writes, and nothing that is no moment of a ride', () => {
    for (const seconds of [0, 59, 249, 3599, 3849, 360_000])
      expect(dates.fromRideClock(dates.rideClock(seconds)), String(seconds)).toBe(seconds);
    expect(dates.fromRideClock(' 0:40:10 ')).toBe(2410);
    // a ride's minutes may run on past the hour, but not beside hours
    expect(dates.fromRideClock('75:30')).toBe(4530);
    for (const text of ['', '12', '1:2', '1:60', '1:75:30', '-1:00', '1:00:00:00', 'noon'])
      expect(dates.fromRideClock(text), text).toBeNull();
  });
});
