import { writeFileSync } from 'node:fs';
import { scriptOptions } from '../script-options.ts';
import { accuracyTable, healthyTable, type TableColumn } from './accuracy-table.ts';
import { diagnosisTable } from './diagnosis-table.ts';
import { excerpt } from './disagreement.ts';
import { inProcesses } from './in-processes.ts';
import { ladderTable } from './ladder-table.ts';
import { realRidesTable } from './real-rides.ts';
import { eventfulPlan, healthyPlan, type PlannedRide, ridePlan } from './ride-plan.ts';
import { addScores, noScore, type RideScore } from './ride-score.ts';
import type { ScoredRide } from './score-ride.ts';

const usage = `npm run accuracy [-- OPTIONS]: measures how often the engine is right and prints it. The same options give the same figures.

--only PART    trace (gear trace, shifts, events), healthy, diagnosis, ladder (drivetrain without gear records) or real; else all
--hours N      simulated hours for each noise, default 48: every cause, speed source and number of rings; three quarters as
               many again of severe faults with ghost shifts, drops and skips are added
--healthy N    hours of healthy riding, default 100
--seed N       other rides, default 1
--seeds N      bikes of each cause and severity for the diagnosis, default 20
--noise N      1 or 2: only that noise; else both
--quick        12 hours, 10 healthy ones, 3 bikes of each cause
--show N       after the tables, up to N disagreements of each kind with the log around them, and each guess of a drivetrain
--json FILE    the figures as JSON too`;
const values = scriptOptions(usage, {
  only: { type: 'string' },
  hours: { type: 'string' },
  healthy: { type: 'string' },
  seed: { type: 'string', default: '1' },
  seeds: { type: 'string' },
  noise: { type: 'string' },
  quick: { type: 'boolean', default: false },
  show: { type: 'string', default: '0' },
  json: { type: 'string' },
});

const parts = ['trace', 'healthy', 'diagnosis', 'ladder', 'real'];
if (values.only !== undefined && !parts.includes(values.only)) {
  console.error(`--only ${values.only}: it must be one of ${parts.join(', ')}.`);
  process.exit(2);
}
const wanted = (part: string): boolean => values.only === undefined || values.only === part;
const whole = (name: 'hours' | 'healthy' | 'seed' | 'seeds' | 'noise' | 'show', fallback: number): number => {
  const text = values[name];
  const value = text === undefined ? fallback : Number(text);
  if (!Number.isInteger(value) || value < 0) {
    console.error(`--${name} ${text}: it must be a whole number.`);
    process.exit(2);
  }
  return value;
};
const PROCESSES = 2;
/** Rides of each bike and speed source from which the drivetrain is guessed. */
const LADDER_RIDES = 3;
const seed = whole('seed', 1);
const json: Record<string, unknown> = { options: values };

/** Scores a plan with progress on standard error. */
async function ride(label: string, plan: readonly PlannedRide[]) {
  const script = new URL('./score-process.ts', import.meta.url);
  const scored = await inProcesses<PlannedRide, ScoredRide>(script, plan, PROCESSES, (done) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${label}: ${done} of ${plan.length} rides`);
    else if (done % 12 === 0) console.error(`${label}: ${done} of ${plan.length} rides`);
  });
  if (process.stderr.isTTY) process.stderr.write('\n');
  const score = scored.map((one) => one.score).reduce((sum, one) => addScores<RideScore>(sum, one), noScore());
  return { score, scored };
}

/** A few disagreements of each kind, from as many rides as possible, with the log around them. */
function show(plan: readonly PlannedRide[], scored: Awaited<ReturnType<typeof ride>>['scored'], most: number): void {
  const byKind = new Map<string, string[]>();
  for (let k = 0; ; k++) {
    const round = scored.flatMap(({ disagreements }, i) => (disagreements[k] ? [{ i, one: disagreements[k] }] : []));
    if (round.length === 0) break;
    for (const { i, one } of round) {
      const shown = byKind.get(one.kind) ?? [];
      if (shown.length < most) byKind.set(one.kind, [...shown, excerpt(plan[i], one)]);
    }
  }
  for (const kind of [...byKind.keys()].sort()) console.log(`\n${(byKind.get(kind) ?? []).join('\n\n')}`);
}

if (wanted('trace')) {
  const hours = whole('hours', values.quick ? 12 : 48);
  const noises = values.noise === undefined ? [1, 2] : [whole('noise', 1)];
  const columns: TableColumn[] = [];
  const rides: unknown[] = [];
  const shown: (() => void)[] = [];
  for (const noise of noises) {
    const plan = [...ridePlan(hours, seed, noise), ...eventfulPlan(Math.round(0.75 * hours), seed, noise)];
    const heading = noise === 1 ? "the simulator's noise" : `noise times ${noise}`;
    const { score, scored } = await ride(heading, plan);
    columns.push({ heading, score });
    rides.push(...scored.map((one, i) => ({ noise, options: plan[i].options, score: one.score })));
    if (whole('show', 0) > 0) shown.push(() => show(plan, scored, whole('show', 0)));
  }
  console.log(`\nSimulated rides, seed ${seed}\n\n${accuracyTable(columns)}`);
  json.trace = columns;
  json.rides = rides;
  for (const print of shown) print();
}

if (wanted('healthy')) {
  const plan = healthyPlan(whole('healthy', values.quick ? 10 : 100), seed);
  const { score, scored } = await ride('healthy', plan);
  console.log(
    `\n${healthyTable(
      score,
      scored.map((one) => one.score),
    )}`,
  );
  json.healthy = score;
  if (whole('show', 0) > 0) show(plan, scored, whole('show', 0));
}

if (wanted('diagnosis')) {
  const seeds = values.seeds === undefined ? undefined : whole('seeds', 0);
  console.log(`\n${await diagnosisTable({ quick: values.quick, seed, seeds, processes: PROCESSES })}`);
}

if (wanted('ladder')) {
  const say = (step: string): void => console.error(`drivetrain: ${step}`);
  const { text, each, figures } = ladderTable({ seed, rides: values.quick ? 1 : LADDER_RIDES, say });
  console.log(`\n${text}`);
  if (whole('show', 0) > 0) console.log(each);
  json.ladder = figures;
}

if (wanted('real')) {
  const { text, figures } = realRidesTable({ seed, say: (step) => console.error(`real rides: ${step}`) });
  console.log(`\n${text}`);
  json.real = figures;
}

if (values.json) writeFileSync(values.json, `${JSON.stringify(json, null, 2)}\n`);
