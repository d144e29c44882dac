import { causePriors } from '../../src/diagnosis/assumptions.ts';
import { causes } from '../../src/diagnosis/causes.ts';
import { checkRideGain, type TruthFound } from './check-ride-gain.ts';
import type { CaseVerdict, DiagnosisCase } from './diagnosis-case.ts';
import { inProcesses } from './in-processes.ts';
import {
  asPriorsHave,
  calibrationBins,
  confusion,
  type ScoredVerdict,
  scoreVerdicts,
  type Weigh,
} from './verdict-scores.ts';

interface DiagnosisTableOptions {
  readonly quick?: boolean;
  readonly seed?: number;
  /** Bikes of each cause and severity. Default 20, 3 when quick. */
  readonly seeds?: number;
  readonly processes?: number;
}

type Judged = CaseVerdict & ScoredVerdict & { readonly case: DiagnosisCase };

/** What a bike's row is: a fault of a severity, or none. */
const states = ['mild', 'severe', 'in order'] as const;

/** Whether a verdict is on a bike of that state on which nothing was adjusted. */
function isIn({ case: { cause, severity, work } }: Judged, state: (typeof states)[number]): boolean {
  return work === 'none' && (cause === 'no-fault' ? state === 'in order' : state === severity);
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);

function row(label: string, verdicts: readonly Judged[], weigh?: Weigh): string {
  if (verdicts.length === 0) return '';
  const { count, top1, top2, logLoss, brier, overconfidence } = scoreVerdicts(verdicts, weigh);
  const undecided = verdicts.filter((one) => one.undecided).length / count;
  return [
    label.padEnd(44),
    String(count).padStart(5),
    percent(top1),
    percent(top2),
    logLoss.toFixed(2).padStart(9),
    brier.toFixed(2).padStart(6),
    overconfidence.toFixed(1).padStart(7),
    percent(undecided),
  ].join(' ');
}

const heading = `${'bikes of every fault, and in order'.padEnd(44)} ${'bikes'.padStart(5)}    top-1    top-2  log-loss  Brier over-sure undecided`;

function confusionLines(verdicts: readonly Judged[]): string[] {
  const table = confusion(verdicts);
  return [
    `${'truth down, named first across'.padEnd(20)} ${causes.map((_, i) => String(i + 1).padStart(3)).join('')}`,
    ...causes.map(
      (cause, i) =>
        `${String(i + 1).padStart(2)} ${cause.padEnd(27)} ${table[i].map((n) => (n === 0 ? '  .' : String(n).padStart(3))).join('')}`,
    ),
  ];
}

function calibrationLines(verdicts: readonly Judged[], weigh?: Weigh): string[] {
  return calibrationBins(verdicts, weigh).map(
    ({ from, count, said, right }) =>
      `named with ${Math.round(100 * from)} to ${Math.round(100 * from) + 10} %: ${String(count).padStart(4)} bikes, said ${percent(said)}, right ${percent(right)}`,
  );
}

/**
 * Second table of `npm run accuracy`: how often the diagnosis names the right cause on simulated bikes, from the truth of
 * their rides and from what the engine saw in their logs. The same options give the same figures.
 */
export async function diagnosisTable(options: DiagnosisTableOptions = {}): Promise<string> {
  const seeds = options.seeds ?? (options.quick ? 3 : 20);
  const base = (options.seed ?? 1) * 1000;
  const plan: DiagnosisCase[] = [];
  const faults = causes.filter((cause) => cause !== 'no-fault');
  for (const severity of ['mild', 'severe'] as const)
    for (const cause of faults)
      for (let i = 0; i < seeds; i++)
        plan.push({ cause, severity, seed: base + i, rides: 3, work: 'none', after: [1, 3] });
  // a bike in order has no severity: as many as of a cause in both severities, each a bike of its own
  for (let i = 0; i < 2 * seeds; i++)
    plan.push({ cause: 'no-fault', severity: 'severe', seed: base + i, rides: 3, work: 'none', after: [1, 3] });
  for (const work of ['cure', 'wrong'] as const)
    for (const cause of faults)
      for (let i = 0; i < Math.max(1, Math.round(seeds / 4)); i++)
        plan.push({ cause, severity: 'severe', seed: base + 500 + i, rides: 4, work, after: [4] });
  const answers = await inProcesses<DiagnosisCase, CaseVerdict[]>(
    new URL('./diagnosis-process.ts', import.meta.url),
    plan,
    options.processes ?? 2,
    (done) => {
      if (done % 24 === 0) console.error(`diagnosis: ${done} of ${plan.length} bikes`);
    },
  );
  const judged: Judged[] = answers.flatMap((verdicts, i) =>
    verdicts.map((verdict) => ({ ...verdict, case: plan[i], truth: plan[i].cause })),
  );
  const pick = (keep: (one: Judged) => boolean): Judged[] => judged.filter(keep);
  const lines = [
    `Diagnosis of simulated bikes, ${seeds} of each fault and severity and ${2 * seeds} in order, seed ${options.seed ?? 1}`,
    '',
    heading,
  ];
  for (const events of ['truth', 'engine'] as const) {
    const from = events === 'truth' ? 'true events' : 'events seen in the log';
    for (const after of [1, 3])
      for (const state of states)
        lines.push(
          row(
            `${from}, ${state}, ${after === 1 ? 'one ride' : 'three rides'}`,
            pick((one) => one.events === events && one.after === after && isIn(one, state)),
          ),
        );
    for (const work of ['cure', 'wrong'] as const)
      lines.push(
        row(
          `${from}, severe, ${work === 'cure' ? 'rightly' : 'wrongly'} adjusted, four rides`,
          pick((one) => one.events === events && one.case.work === work),
        ),
      );
  }
  const healthy = pick((one) => one.truth === 'no-fault' && one.events === 'engine');
  const accused = healthy.filter(({ ranked }) => ranked[0].cause !== 'no-fault').length;
  const named = healthy.filter(({ parameter }) => parameter !== 'none').length;
  lines.push(
    '',
    `${2 * seeds} bikes in order, events seen in the log, after one and after three rides: ${accused} of ${healthy.length} verdicts name a fault, ${named} advise a part.`,
  );
  const seen = pick((one) => one.events === 'engine');
  const left = seen.filter(({ unexplained }) => unexplained);
  lines.push(
    `Events seen in the log, at most one fault a bike: ${left.length} of ${seen.length} verdicts leave trouble unexplained, ${left.filter(({ ranked, truth }) => ranked[0].cause === truth).length} of them with the right cause first.`,
  );
  lines.push(...calibrationTables(judged));
  for (const state of ['severe', 'mild'] as const)
    lines.push(
      '',
      `${state} and in order, three rides, events seen in the log`,
      ...confusionLines(
        pick((one) => one.events === 'engine' && one.after === 3 && (isIn(one, state) || isIn(one, 'in order'))),
      ),
    );
  lines.push('', ...checkRideLines(seeds, base));
  return lines.join('\n');
}

/** Whether the probabilities mean what they say: over the bikes as they are listed, and over bikes as the priors have them. */
function calibrationTables(judged: readonly Judged[]): string[] {
  return (['truth', 'engine'] as const).flatMap((events) => {
    const label = `three rides, ${events === 'truth' ? 'true events' : 'events seen in the log'}`;
    const verdicts = judged.filter((one) => one.events === events && one.after === 3 && one.case.work === 'none');
    const weigh = asPriorsHave(verdicts, causePriors.cable);
    return [
      '',
      `Calibration, ${label}, mild, severe and in order, every fault equally often`,
      heading,
      row('all of them', verdicts),
      ...calibrationLines(verdicts),
      '',
      `Calibration, ${label}, the same bikes counted as often as the priors have their causes`,
      heading,
      row('all of them', verdicts, weigh),
      ...calibrationLines(verdicts, weigh),
    ];
  });
}

function checkRideLines(seeds: number, firstSeed: number): string[] {
  const { safe, asked } = checkRideGain(seeds, firstSeed);
  const found = ({ top1, truth }: TruthFound): string =>
    `top-1 ${percent(top1)}, probability of the truth ${percent(truth)}`;
  return [
    [`${safe.bikes} bikes, whatever the verdict asks for`, safe] as const,
    [`the ${asked.bikes} of them whose verdict asks for it`, asked] as const,
  ].flatMap(([label, gain]) => [
    `Check ride after 60 shifts, ${label}, ${gain.plannedShifts.toFixed(0)} shifts (events made by the tests' own rules)`,
    `  before        ${found(gain.before)}`,
    `  as planned    ${found(gain.planned)}`,
    `  by habit      ${found(gain.ordinary)}`,
  ]);
}
