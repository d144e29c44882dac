import { rename, rm } from 'node:fs/promises';
import type { Request } from 'express';
import { defineRoute } from '../http/define-route.ts';
import { RequestError } from '../http/request-error.ts';
import { receiveFiles } from '../intake/receive-files.ts';
import { refuseIfStorage } from '../intake/refuse-if-storage.ts';
import type { Services } from '../services.ts';
import { drivetrainGuessShape } from '../shapes/upload-shapes.ts';
import type { GuessAnswer } from '../work/tasks.ts';
import { WorkFailed } from '../work/worker-pool.ts';

/** Guessing a drivetrain from files that are not stored. */
export const guessRoutes = [
  defineRoute({
    method: 'post',
    path: '/drivetrain-guess',
    summary: 'Guess the drivetrain from ride files, and say what could be read in each; nothing is stored',
    files: true,
    answers: {
      200: {
        description: 'The guess',
        schema: drivetrainGuessShape,
      },
    },
    handle: ({ request }, services) =>
      services.gate.through(async () => {
        const guess = await guessFrom(request, services);
        if (guess.files.some(({ understood }) => understood.length > 0)) return { status: 200, json: guess };
        throw new RequestError(
          422,
          'nothing-to-guess-from',
          guess.notes[0] ?? 'None of these files could be read as a ride.',
          guess.files.flatMap(({ name, notUnderstood }) => notUnderstood.map((message) => ({ path: name, message }))),
        );
      }),
  }),
];

/** Files that are too much to read together are the sender's to part; all else is thrown on. */
function tooMuch(error: unknown): never {
  const tooMuch = error instanceof WorkFailed && (error.code === 'took-too-long' || error.code === 'out-of-memory');
  if (!tooMuch) throw error;
  throw new RequestError(
    422,
    error.code,
    'These files are too much to read together. Send fewer of them; three or four tell enough.',
  );
}

/** Holds the files until all are in, has them read together, and removes them. */
async function guessFrom(request: Request, { folder, limits, intake }: Services): Promise<GuessAnswer> {
  const held: string[] = [];
  try {
    const files = await receiveFiles(request, folder.incoming, limits, async ({ name, path }) => {
      const place = `${path}.held`;
      await rename(path, place);
      held.push(place);
      return { file: name, path: place };
    });
    refuseIfStorage(files.filter((file) => 'code' in file));
    const answer = await intake.run('guess', { files: files.filter((file) => 'path' in file) }).catch(tooMuch);
    const refused = files.filter((file) => 'code' in file);
    const told = refused.map(({ name, message }) => ({ name, understood: [], notUnderstood: [message], remarks: [] }));
    return { ...answer, files: [...answer.files, ...told] };
  } finally {
    await Promise.all(held.map((place) => rm(place, { force: true })));
  }
}
