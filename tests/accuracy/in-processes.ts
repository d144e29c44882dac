import { type ChildProcess, fork } from 'node:child_process';

/**
 * Sends jobs to `processes` processes of their own, one at a time each, and gathers the answers in the order of the
 * jobs. `script` must answer every message with one message.
 *
 * @throws Error where a process ends before it has answered
 */
export async function inProcesses<Job extends object, Answer>(
  script: URL,
  jobs: readonly Job[],
  processes: number,
  onDone: (done: number) => void,
): Promise<Answer[]> {
  const answers: Answer[] = [];
  let next = 0;
  let done = 0;
  const workers = Array.from({ length: Math.min(processes, jobs.length) }, () =>
    fork(script, { execArgv: ['--import', 'tsx'], serialization: 'advanced' }),
  );
  const work = (worker: ChildProcess): Promise<void> =>
    new Promise((resolve, reject) => {
      let at = -1;
      const send = (): void => {
        at = next++;
        if (at >= jobs.length) {
          worker.removeAllListeners('exit');
          resolve();
        } else worker.send(jobs[at]);
      };
      worker.on('message', (answer: Answer) => {
        answers[at] = answer;
        onDone(++done);
        send();
      });
      worker.on('exit', (code) => reject(new Error(`A process ended with ${code} at ${JSON.stringify(jobs[at])}`)));
      send();
    });
  try {
    await Promise.all(workers.map(work));
  } finally {
    for (const worker of workers) if (worker.connected) worker.disconnect();
  }
  return answers;
}
