import { type ChildProcess, fork } from 'node:child_process';
import type { PlannedRide } from './ride-plan.ts';
import type { ScoredRide } from './score-ride.ts';

/**
 * Scores rides in `processes` processes of their own. Results stand in the order of the plan, whichever process was
 * quicker, so the same plan gives the same figures.
 *
 * @throws Error where a process ends before it has answered
 */
export function scoreRides(
  plan: readonly PlannedRide[],
  processes: number,
  onRide: (done: number) => void,
): Promise<ScoredRide[]> {
  const results: ScoredRide[] = [];
  let next = 0;
  let done = 0;
  const workers = Array.from({ length: Math.min(processes, plan.length) }, () =>
    fork(new URL('./score-process.ts', import.meta.url), { execArgv: ['--import', 'tsx'], serialization: 'advanced' }),
  );
  const work = (worker: ChildProcess): Promise<void> =>
    new Promise((resolve, reject) => {
      let at = -1;
      const send = (): void => {
        at = next++;
        if (at >= plan.length) {
          worker.removeAllListeners('exit');
          worker.disconnect();
          resolve();
        } else worker.send(plan[at]);
      };
      worker.on('message', (scored: ScoredRide) => {
        results[at] = scored;
        onRide(++done);
        send();
      });
      worker.on('exit', (code) =>
        reject(new Error(`A scoring process ended with ${code} at ride ${at}: ${JSON.stringify(plan[at].options)}`)),
      );
      send();
    });
  return Promise.all(workers.map(work))
    .then(() => results)
    .finally(() => {
      for (const worker of workers) if (worker.connected) worker.disconnect();
    });
}
