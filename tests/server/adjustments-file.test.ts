import { describe, expect, it } from 'vitest';
import type { Loose } from './checked-api.ts';
import { checkedServer } from './checked-server.ts';
import { madeRides } from './made-rides.ts';

const { api } = await checkedServer();

const header = 'at,parameter,amount,unit,note';
const turned = '2026-04-12T18:30:00Z,cable-tension,2,clicks,after the hut ride';
const aligned = '2026-04-20T09:00:00Z,hanger,,,';

describe('an adjustments file', () => {
  const take = (id: string, ...lines: string[]) =>
    api.post(`/api/bikes/${id}/adjustments/file`, { file: 'log.csv', text: [header, ...lines].join('\n') });
  const log = async (id: string): Promise<string[]> =>
    (await api.get(`/api/bikes/${id}`)).body.adjustmentsLog.map(
      ({ parameter, amount, note }: Loose) => `${parameter} ${amount} ${note}`,
    );

  it('brings what is not in the log, once, whether it is CSV or JSON, and leaves what is there as it is', async () => {
    const id = await api.addHutBike();
    const logged = {
      at: '2026-04-12T20:30:00+02:00',
      parameter: 'cable-tension',
      amount: 2,
      unit: 'clicks',
      note: 'x',
    };
    await api.post(`/api/bikes/${id}/adjustments`, logged);
    expect(await take(id, turned, aligned, aligned)).toMatchObject({ status: 200, body: { added: 1, known: 2 } });
    expect(await log(id)).toEqual(['cable-tension 2 x', 'hanger null ']);
    const text = JSON.stringify([{ at: '2026-04-21T09:00:00Z', parameter: 'chain' }, logged]);
    const json = await api.post(`/api/bikes/${id}/adjustments/file`, { file: 'log.json', text });
    expect(json).toMatchObject({ status: 200, body: { added: 1, known: 1 } });
    expect(await log(id)).toEqual(['cable-tension 2 x', 'hanger null ', 'chain null ']);
    expect(await take(id, turned, aligned)).toMatchObject({ status: 200, body: { added: 0, known: 2 } });
    await api.settled();
    expect((await api.get(`/api/jobs/${json.body.jobId}`)).body.status).toBe('done');
  });

  it('is not refused for the actuation of a bike that was guessed', async () => {
    await api.send('/api/uploads?bike=new', madeRides(1));
    await api.settled();
    const { bikes } = (await api.get('/api/bikes')).body;
    const { id } = bikes.find(({ bikeSource }: Loose) => bikeSource === 'guessed');
    const electronic = '2026-04-12T18:30:00Z,index-offset,2,steps,';
    expect(await take(id, electronic)).toMatchObject({ status: 200, body: { added: 1 } });
    await api.settled();
  });

  it('with something wrong in it brings nothing, and says where and what to do', async () => {
    const id = await api.addHutBike();
    for (const [line, said] of [
      ['2026-04-12,cable-tension,2,clicks,', /^log\.csv: line 3, column at: .*ISO 8601.* try again\.$/],
      [
        '2026-04-12T18:30:00Z,index-offset,2,steps,',
        /^log\.csv: index-offset of 2026-04-12T18:30:00.*: a bike with cable actuation has no index-offset.* try again\.$/,
      ],
      ['2199-04-12T18:30:00Z,chain,,,', /still to come/],
    ] as const) {
      const { status, body } = await take(id, aligned, line);
      expect(status).toBe(422);
      expect(body.error).toMatchObject({ code: 'bad-adjustments', message: expect.stringMatching(said) });
    }
    expect(await log(id)).toEqual([]);
    expect((await take('0123456789abcdef', aligned)).status).toBe(404);
  });
});
