import { ALONE_S, WELL_FILLED } from './matching-rules.ts';
import {
  type ConfidenceBins,
  type Detection,
  f1Of,
  judgedOutcomes,
  precisionOf,
  type RideScore,
  recallOf,
  traceGroups,
} from './ride-score.ts';

/** One column of the table: a score under its heading, with the healthy rides at the same noise where they were ridden. */
export interface TableColumn {
  readonly heading: string;
  readonly score: RideScore;
}

const LABEL_WIDTH = 58;
const COLUMN_WIDTH = 48;

const percent = (share: number): string => (Number.isNaN(share) ? 'none' : `${(100 * share).toFixed(1)} %`);
const decimal = (value: number): string => (Number.isNaN(value) ? '-' : value.toFixed(3));
const row = (label: string, cells: readonly string[]): string =>
  `${label.padEnd(LABEL_WIDTH)}${cells.map((cell) => cell.padEnd(COLUMN_WIDTH)).join('')}`.trimEnd();

function detection(counts: Detection): string {
  const { found, overlooked, wrong } = counts;
  const figures = [precisionOf(counts), recallOf(counts), f1Of(counts)].map(decimal).join(' ');
  return `${figures}  (${found} of ${found + overlooked}, ${wrong} wrong)`;
}

/** The table of simulated rides, one column a noise. */
export function accuracyTable(columns: readonly TableColumn[]): string {
  const scores = columns.map(({ score }) => score);
  const rows = (label: string, cell: (score: RideScore) => string): string => row(label, scores.map(cell));
  return [
    row(
      '',
      columns.map(({ heading }) => heading),
    ),
    rows('hours', ({ hours }) => String(hours)),
    '',
    'Gear trace: settled pedalling seconds with the right cog (seconds; share without a cog)',
    ...traceGroups.map((group) =>
      rows(`  ${group}`, ({ trace }) => {
        const { right, unnamed, of } = trace[group];
        return of === 0 ? '-' : `${percent(right / of)}  (${of}; ${percent(unnamed / of)})`;
      }),
    ),
    rows('  two rings or one: cog and ring right', ({ trace }) => {
      const all = traceGroups.map((group) => trace[group]);
      return percent(
        all.reduce((sum, { rightWithRing }) => sum + rightWithRing, 0) / all.reduce((sum, { of }) => sum + of, 0),
      );
    }),
    '',
    'Events: precision, recall, F1 (found of all true, reported wrongly)',
    rows('  missed shifts', ({ missed }) => detection(missed)),
    rows('  late or missed shifts', ({ lateOrMissed }) => detection(lateOrMissed)),
    rows('  missed, borderline ones as they were', ({ missedStrictly }) => detection(missedStrictly)),
    rows('  late or missed, borderline ones as they were', ({ lateOrMissedStrictly }) =>
      detection(lateOrMissedStrictly),
    ),
    rows(`  missed, no other shift within ${ALONE_S} s`, ({ missedAlone }) => detection(missedAlone)),
    rows(`  late or missed, no other within ${ALONE_S} s`, ({ lateOrMissedAlone }) => detection(lateOrMissedAlone)),
    rows('  overshot shifts', ({ overshot }) => detection(overshot)),
    rows('  ghost shifts held over 3 s', ({ ghostShifts }) => detection(ghostShifts)),
    rows('  chain drops', ({ chainDrops }) => detection(chainDrops)),
    rows(
      '    on the right side, of those found',
      ({ dropSides }) => `${percent(dropSides.right / dropSides.of)}  (${dropSides.of})`,
    ),
    rows('  chain drops without gear records', ({ chainDropsWithoutRecords }) => detection(chainDropsWithoutRecords)),
    rows(
      '    on the right side, of those found',
      ({ dropSidesWithoutRecords: sides }) => `${percent(sides.right / sides.of)}  (${sides.of})`,
    ),
    rows('  skips', ({ skips }) => detection(skips)),
    '',
    'Shifts',
    rows('  true, reported, paired', ({ shifts }) => `${shifts.truly}, ${shifts.reported}, ${shifts.paired}`),
    rows('  unjudged: truly, reported', ({ shifts }) => `${shifts.unjudgedTruly}, ${shifts.unjudgedReported}`),
    rows(
      '  left unjudged of those to be judged; late or missed',
      ({ shifts }) => `${shifts.leftUnjudged}, ${shifts.leftInTrouble}`,
    ),
    rows(
      '  judged on both sides; outcome right',
      ({ shifts }) => `${shifts.judged}; ${percent(shifts.outcomeRight / shifts.judged)}`,
    ),
    rows('  borderline: may count either way', ({ shifts }) => String(shifts.borderline)),
    ...judgedOutcomes.map((truly) =>
      rows(`  truly ${truly}: judged ${judgedOutcomes.join(', ')}`, ({ outcomes }) =>
        judgedOutcomes.map((said) => outcomes[truly][said]).join(', '),
      ),
    ),
    rows('  left out: ghosts that were late arrivals', (score) => String(score.ghostsThatWereLateArrivals)),
    rows('  left out: ghosts that left no mark', (score) => String(score.ghostsWithoutMark)),
    '',
    ...calibrationRows('shifts', columns, ({ confidence }) => confidence.shifts),
    '',
    ...calibrationRows('ghost shifts, drops, skips', columns, ({ confidence }) => confidence.events),
  ].join('\n');
}

/** Ten rows: how many events, their mean confidence, the share of them that was right. */
function calibrationRows(
  what: string,
  columns: readonly TableColumn[],
  binsOf: (score: RideScore) => ConfidenceBins,
): string[] {
  return [
    `Confidence of ${what}: n, mean confidence, share right (* n of ${WELL_FILLED} or more)`,
    ...Array.from({ length: 10 }, (_, bin) =>
      row(
        `  ${(bin / 10).toFixed(1)} to ${((bin + 1) / 10).toFixed(1)}`,
        columns.map(({ score }) => {
          const { count, confidenceSum, right } = binsOf(score);
          const n = count[bin];
          if (n === 0) return '-';
          return `${n}${n >= WELL_FILLED ? '*' : ''}  ${(confidenceSum[bin] / n).toFixed(3)}  ${(right[bin] / n).toFixed(3)}`;
        }),
      ),
    ),
  ];
}

/** Fewer judged shifts tell no rate of a single ride. */
const ENOUGH_OF_ONE_RIDE = 20;

const judgedIn = ({ shifts }: RideScore): number => shifts.reported - shifts.unjudgedReported;
const troubleOf = (score: RideScore): string =>
  `${score.shifts.troubleReported} of ${judgedIn(score)} (${percent(score.shifts.troubleReported / judgedIn(score))})`;

/** What is reported in healthy rides that are full of stops: in all of them, and in the one that is misjudged most. */
export function healthyTable(all: RideScore, rides: readonly RideScore[]): string {
  const { hours, chainDrops, chainDropsWithoutRecords, ghostShifts, skips } = all;
  const worst = rides
    .filter((score) => judgedIn(score) >= ENOUGH_OF_ONE_RIDE)
    .sort((a, b) => b.shifts.troubleReported / judgedIn(b) - a.shifts.troubleReported / judgedIn(a))
    .at(0);
  return [
    `Healthy rides full of stops, ${hours} h`,
    row('  false chain drops', [String(chainDrops.wrong + chainDropsWithoutRecords.wrong)]),
    row('  false ghost shifts held over 3 s', [String(ghostShifts.wrong)]),
    row('  false skips', [String(skips.wrong)]),
    row('  judged shifts called trouble', [troubleOf(all)]),
    row('  the same in the worst ride', [worst ? troubleOf(worst) : '-']),
  ].join('\n');
}
