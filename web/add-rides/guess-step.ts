import { counted } from '../../src/numeric/counted.ts';
import type { BikeSummary, DrivetrainGuess } from '../api/answers.ts';
import { createBike } from '../api/bikes.ts';
import { guessDrivetrain } from '../api/uploads.ts';
import { drivetrainForm } from '../bike/drivetrain-form.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { likelihoodWord } from '../words/likelihood-word.ts';
import { probably } from '../words/numbers.ts';
import { refusedFiles } from './refused-files.ts';
import { understoodList } from './understood-list.ts';

/** So many files are read for the guess; the others are read when they are worked through. */
const readForGuess = 6;

interface GuessPlan {
  readonly signal: AbortSignal;
  /** `made`: the bike has just been made for these files. */
  readonly start: (bikeId: string, bikeName: string, made: boolean) => void;
}

/** Cogs or rings that the rides show and the bike does not have, as a sentence; null where they agree. */
export function mismatch(guess: DrivetrainGuess, { bike }: BikeSummary): string | null {
  const range = (cogs: readonly number[]): string => `${cogs[0]}–${cogs[cogs.length - 1]} with ${cogs.length} cogs`;
  const strange = guess.bike.cassette.filter((teeth) => !bike.cassette.includes(teeth));
  if (strange.length <= 2) return null;
  return `These rides look like a cassette of ${range(guess.bike.cassette)}; ${bike.name} has ${range(bike.cassette)}. Is it the right bike?`;
}

/** The step after choosing files: what they show, and for a new bike the guessed drivetrain to put right. */
export function makeGuessStep({ signal, start }: GuessPlan) {
  let asked: AbortController | null = null;
  let lastFiles: readonly File[] = [];
  let answer: Promise<DrivetrainGuess> | null = null;

  const guessFor = (files: readonly File[]): Promise<DrivetrainGuess> => {
    if (answer && files.length === lastFiles.length && files.every((file, i) => file === lastFiles[i])) return answer;
    asked?.abort();
    asked = new AbortController();
    lastFiles = files;
    answer = guessDrivetrain(files.slice(0, readForGuess), AbortSignal.any([signal, asked.signal]));
    return answer;
  };

  const show = (files: readonly File[], bike: BikeSummary | null): HTMLElement => {
    const place = make('section', { class: 'add-guess', 'aria-label': 'What the files show' });
    const go = bike
      ? listen(make('button', { type: 'button' }, `Work through ${counted(files.length, 'file')}`), {
          click: () => start(bike.id, bike.bike.name, false),
        })
      : null;
    const found = make(
      'div',
      { class: 'add-found' },
      make('p', { class: 'quiet is-working', role: 'status' }, 'Reading the files …'),
    );
    fill(place, found, go && make('p', { class: 'row' }, go));
    const newBikeForm = (startWith: Partial<DrivetrainGuess['bike']>): HTMLElement => {
      let made: { id: string; name: string } | null = null;
      return drivetrainForm({
        start: startWith,
        saveWord: `Save the bike and work through ${counted(files.length, 'file')}`,
        save: async (bike) => {
          const { id } = await createBike(bike);
          made = { id, name: bike.name };
        },
        saved: () => made && start(made.id, made.name, true),
      }).element;
    };
    guessFor(files)
      .then((guess) => {
        const question = bike ? mismatch(guess, bike) : null;
        const rest = files.length - guess.files.length;
        fill(
          found,
          understoodList(guess.files),
          rest > 0 &&
            make('p', { class: 'quiet' }, `The other ${counted(rest, 'file')} are read when they are worked through.`),
          question && make('p', { class: 'remark' }, question),
          !bike && [
            make('h2', {}, 'Is this the bike?'),
            make(
              'p',
              {},
              `Guessed from the rides, ${likelihoodWord(guess.certainty)} right (${probably(guess.certainty)}). Put right what is wrong, and give it a name.`,
            ),
            guess.notes.length > 0 &&
              make('ul', { class: 'points' }, ...guess.notes.map((note) => make('li', {}, note))),
            make('div', { class: 'panel' }, newBikeForm({ ...guess.bike, name: '' })),
          ],
        );
        announce('The files have been read.');
      })
      .catch((error: Error) => {
        if (error.name === 'AbortError' || signal.aborted) return;
        fill(
          found,
          make('p', { class: 'fault', role: 'alert' }, error.message),
          understoodList(refusedFiles(error)),
          !bike && [
            make('h2', {}, 'Describe the bike'),
            make(
              'p',
              {},
              'The drivetrain could not be guessed from these files. Describe it here, or choose other files.',
            ),
            make('div', { class: 'panel' }, newBikeForm({})),
          ],
        );
      });
    return place;
  };
  return { show };
}
