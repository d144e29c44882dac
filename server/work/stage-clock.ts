import type { Stage } from './tasks.ts';

/** Takes the time of each stage of a piece of work. */
export class StageClock {
  readonly stages: Stage[] = [];

  /** Runs one stage; `facts` says in numbers what came of it. */
  run<Result>(stage: string, work: () => Result, facts: (result: Result) => Stage['facts'] = () => ({})): Result {
    const start = performance.now();
    const result = work();
    this.stages.push({ stage, ms: Math.round((performance.now() - start) * 10) / 10, facts: facts(result) });
    return result;
  }
}
