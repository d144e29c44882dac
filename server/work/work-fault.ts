import type { RideFault } from '../store/work-store.ts';
import { WorkFailed } from './worker-pool.ts';

/** What a rider is told when the work on a file or ride was ended or broke off; null where the server is stopping. */
export function workFault(file: string, error: unknown): RideFault | null {
  const code = error instanceof WorkFailed ? error.code : 'broke-off';
  switch (code) {
    case 'stopped':
      return null;
    case 'took-too-long':
      return { code, message: `${file}: took too long to read and was stopped. Split the file, or export it again.` };
    case 'out-of-memory':
      return { code, message: `${file}: needs more memory than one ride may. Split the file, or export it again.` };
    case 'broke-off':
      return {
        code,
        message: `${file}: could not be worked out because of a fault in this program. Please report it.`,
      };
  }
}

/** What a rider is told of a ride whose file is not in the data folder any more. */
export const fileMissing = (file: string): RideFault => ({
  code: 'file-missing',
  message: `${file}: its file is no longer in the data folder.`,
});
