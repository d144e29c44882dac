import type { Request } from 'express';
import { defineRoute } from '../http/define-route.ts';
import { RequestError } from '../http/request-error.ts';
import { refuseIfStorage } from '../intake/refuse-if-storage.ts';
import { withHeldFiles } from '../intake/with-held-files.ts';
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
  if (!(error instanceof WorkFailed) || (error.code !== 'took-too-long' && error.code !== 'out-of-memory')) throw error;
  throw new RequestError(
    422,
    error.code,
    'These files are too much to read together. Send fewer of them; three or four tell enough.',
  );
}

/** Has the files of a request read together. */
function guessFrom(request: Request, { folder, limits, intake }: Services): Promise<GuessAnswer> {
  return withHeldFiles(request, folder.incoming, limits, async (files) => {
    const [held, refused] = [files.filter((file) => 'path' in file), files.filter((file) => 'code' in file)];
    refuseIfStorage(refused);
    const answer = await intake
      .run('guess', { files: held.map(({ name, path }) => ({ file: name, path })) })
      .catch(tooMuch);
    const told = refused.map(({ name, message }) => ({ name, understood: [], notUnderstood: [message], remarks: [] }));
    return { ...answer, files: [...answer.files, ...told] };
  });
}
