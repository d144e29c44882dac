import { describe, expect, it } from 'vitest';
import type { BikeSummary } from '../../web/api/answers.ts';
import { groupOf, groupWords, isIn, rowGroups } from '../../web/bikes/row-group.ts';
import { inOrder, leadOf, orderOf, rowOrders } from '../../web/bikes/row-order.ts';
import { tableAsCsv } from '../../web/charts/table-as-csv.ts';
import { bikesTable } from '../../web/workshop/bikes-table.ts';

const made = (
  name: string,
  lastRideAt: string | null,
  troubleRate: number | null,
  more: object = {},
  stale: string | null = null,
) =>
  ({
    id: name,
    bike: { name, chainrings: [32], cassette: [10, 12], actuation: 'cable' },
    rides: 1,
    lastRideAt,
    workshopMark: null as object | null,
    work: 'Check the hanger.',
    staleReason: stale,
    state: { word: 'watch', dangers: [], reasons: [], low: 0, high: 1, judgedShifts: 20, troubleRate, ...more },
  }) as never;

const bikes = [
  made('Bike 10', '2026-05-01T08:00:00.000Z', 0.05, {
    worstCog: { teeth: 51, direction: 'to-larger', troubleRate: 0.6, shifts: 8 },
  }),
  made('Bike 2', '2026-05-03T08:00:00.000Z', 0.3),
  made('Bike 1', null, null, { word: 'too little data', underWay: true }, 'One ride waits.'),
];

describe('the order of the list of bikes', () => {
  it.each([
    ['need', ['Bike 10', 'Bike 2', 'Bike 1']],
    ['name', ['Bike 1', 'Bike 2', 'Bike 10']],
    ['ridden', ['Bike 2', 'Bike 10', 'Bike 1']],
    ['resting', ['Bike 10', 'Bike 2', 'Bike 1']],
    ['trouble', ['Bike 2', 'Bike 10', 'Bike 1']],
  ] as const)('by %s', (order, names) => {
    expect(inOrder(bikes, order).map(({ bike }) => bike.name)).toEqual(names);
    expect(orderOf(order)).toBe(order);
  });

  it('says where bikes without a dated ride stand, if there are any', () => {
    for (const order of ['ridden', 'resting'] as const) {
      expect(leadOf(order, bikes)).toContain('Bikes without a dated ride stand last.');
      expect(leadOf(order, bikes.slice(0, 2))).not.toContain('without a dated ride');
    }
    expect(leadOf('name', bikes)).not.toContain('without a dated ride');
  });

  it('counts every skip of a worn bike as one more shift that went wrong, and of no other', () => {
    const shifts = { judgedShifts: 100 };
    const worn = (skips: number, more: object = {}) =>
      made(`Worn ${skips}`, null, 0.01, { ...shifts, topCause: 'worn-drivetrain', skips, ...more });
    const unlike = made('Bent', null, 0.15, { ...shifts, topCause: 'hanger-bent', skips: 60 });
    const fleet = [worn(0), unlike, worn(5), worn(40)];
    const names = ['Worn 40', 'Bent', 'Worn 5', 'Worn 0'];
    expect(inOrder(fleet, 'trouble').map(({ bike }) => bike.name)).toEqual(names);
  });

  it('puts no handful of shifts that all went wrong, of a bike or of one cog, before hundreds of which two in five did', () => {
    const few = made('Few', null, 1, { judgedShifts: 5 });
    const worstCog = { teeth: 10, direction: 'to-smaller', shifts: 5, troubleRate: 1 };
    const oneCog = made('One cog', null, 0.12, { judgedShifts: 191, worstCog });
    const many = made('Many', null, 0.4, { judgedShifts: 300 });
    const well = made('Well', null, 0, { judgedShifts: 300 });
    const none = made('None', null, null, { judgedShifts: 0 });
    const names = inOrder([none, few, oneCog, well, many], 'trouble').map(({ bike }) => bike.name);
    expect(names).toEqual(['Many', 'Few', 'One cog', 'Well', 'None']);
  });

  it('is that of need where the address asks for none that there is', () => {
    expect(orderOf('size')).toBe('need');
    expect(orderOf(null)).toBe(rowOrders[0].key);
  });
});

describe('the groups of bikes', () => {
  it('part what is being worked through from too little data', () => {
    expect(bikes.map(groupOf)).toEqual(['watch', 'watch', 'under way']);
  });

  it('keep what can hurt apart, before every state', () => {
    const hurts = { dangers: ['The chain left the cassette once: inspect before riding.'] };
    const words = ['service', 'watch', 'too little data', 'fine'].map((word) =>
      made(word, null, 0, { word, ...hurts }),
    );
    expect(words.map(groupOf)).toEqual(words.map(() => 'look first'));
    expect(groupOf(made('first ride', null, null, { ...hurts, underWay: true }))).toBe('under way');
    expect(rowGroups[0]).toBe('look first');
    expect(groupWords(rowGroups[0]).label).toBe('Look over first');
  });

  it('take a bike that is set aside by hand beside its state', () => {
    const aside = {
      ...(made('aside', null, 0, { word: 'fine' }) as BikeSummary),
      workshopMark: { on: null, note: '' },
    };
    expect(rowGroups.filter((group) => isIn(group, aside))).toEqual(['set aside', 'fine']);
    expect(rowGroups.filter((group) => isIn(group, bikes[1]))).toEqual(['watch']);
    expect(leadOf('need', [aside])).toContain('then what is set aside for the workshop');
    expect(leadOf('need', bikes)).not.toContain('set aside');
  });

  it('have an address each', () => {
    expect(new Set(rowGroups.map((group) => groupWords(group).key)).size).toBe(rowGroups.length);
  });
});

describe('the list of bikes as a file', () => {
  it('has a row a bike, marked where its figures are not up to date, with no interval where no shift was judged', () => {
    const [head, first, , last] = tableAsCsv(bikesTable(bikes)).split('\r\n');
    expect(head).toMatch(
      /^bike,chainrings,cassette,actuation,state,set aside,set aside since,"set aside, note",not up to date,dangers,reasons,/,
    );
    expect(first).toBe(
      'Bike 10,32,10 12,cable,watch,,,,,,,Check the hanger.,,20,0.05,0,1,51,to-larger,0.6,8,1,2026-05-01T08:00:00.000Z,/bikes/Bike 10',
    );
    expect(last).toBe(
      'Bike 1,32,10 12,cable,being worked through,,,,One ride waits.,,,Check the hanger.,,20,,,,,,,,1,,/bikes/Bike 1',
    );
  });
});
