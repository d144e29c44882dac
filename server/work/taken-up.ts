import type { MessagePort } from 'node:worker_threads';

/** What a thread is sent: a task, and the port on which the thread says that it has taken it up. */
export interface SentTask<Ask> {
  readonly task: Ask;
  readonly takenUp: MessagePort;
}

/** The function of a thread that does a piece of work: first it says that it has taken the task up, since from then on its time counts. */
export const takingUp =
  <Ask, Answer>(work: (task: Ask) => Answer) =>
  ({ task, takenUp }: SentTask<Ask>): Answer => {
    takenUp.postMessage(null);
    takenUp.close();
    return work(task);
  };
