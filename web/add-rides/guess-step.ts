import { counted } from '../../src/numeric/counted.ts';
import { chance } from '../../src/numeric/percent.ts';
import type { BikeSummary, DrivetrainGuess } from '../api/answers.ts';
import { createBike } from '../api/bikes.ts';
import { drivetrainForm } from '../bike/drivetrain-form.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { points } from '../page/points.ts';
import { leftOutCogs } from '../words/left-out-cogs.ts';
import { likelihoodWord } from '../words/likelihood-word.ts';
import { GuessOnce } from './guess-once.ts';
import { readableFiles } from './readable-files.ts';
import { refusedFiles } from './refused-files.ts';
import { understoodList } from './understood-list.ts';

interface GuessPlan {
  readonly signal: AbortSignal;
  /** `made`: the bike has just been made for these files. */
  readonly start: (files: readonly File[], bikeId: string, bikeName: string, made: boolean) => void;
}

const shownCogs = ({ bike, madeUpCogs }: DrivetrainGuess): number[] =>
  bike.cassette.filter((teeth) => !madeUpCogs.includes(teeth));

/** Cogs that the rides show and the bike does not have, as a question; null where no more than two differ, which a guess may get wrong. Rings are not compared. */
function mismatch(guess: DrivetrainGuess, { bike }: BikeSummary): string | null {
  const range = (cogs: readonly number[]): string => `${cogs[0]}–${cogs[cogs.length - 1]} with ${cogs.length} cogs`;
  const shown = shownCogs(guess);
  const strange = shown.filter((teeth) => !bike.cassette.includes(teeth));
  if (strange.length <= 2) return null;
  return `These rides look like a cassette of ${range(shown)}; ${bike.name} has ${range(bike.cassette)}. Is it the right bike?`;
}

/** A form for a new bike, which then works through the files. */
function newBikeForm(
  files: readonly File[],
  startWith: Partial<DrivetrainGuess['bike']>,
  start: GuessPlan['start'],
): HTMLElement {
  let made: { id: string; name: string } | null = null;
  const { element } = drivetrainForm({
    start: startWith,
    saveWord: `Save the bike and work through ${counted(files.length, 'file')}`,
    save: async (bike) => {
      const { id } = await createBike(bike);
      made = { id, name: bike.name };
    },
    saved: () => made && start(files, made.id, made.name, true),
  });
  return make('div', { class: 'panel' }, element);
}

/** What the files show of a bike that is not known yet, in words. */
const guessInWords = ({ certainty, notes, madeUpCogs }: DrivetrainGuess): (HTMLElement | false)[] => [
  make('h2', {}, 'Is this the bike?'),
  make(
    'p',
    {},
    `Guessed from the rides, ${likelihoodWord(certainty)} right (${chance(certainty)}). Put right what is wrong, and give it a name.`,
  ),
  notes.length > 0 && points(notes),
  madeUpCogs.length > 0 && make('p', { class: 'remark' }, leftOutCogs(madeUpCogs)),
];

const notGuessed = (): HTMLElement[] => [
  make('h2', {}, 'Describe the bike'),
  make('p', {}, 'The drivetrain could not be guessed from these files. Describe it here, or choose other files.'),
];

/** The step after choosing files: what they show, and for a new bike the guessed drivetrain to put right. */
export function makeGuessStep({ signal, start }: GuessPlan) {
  const guesses = new GuessOnce(signal);

  const show = (files: readonly File[], bike: BikeSummary | null): HTMLElement => {
    let readable = files;
    const goWord = (): string => `Work through ${counted(readable.length, 'file')}`;
    const go = bike && make('button', { type: 'button' }, goWord());
    if (go) listen(go, { click: () => start(readable, bike.id, bike.bike.name, false) });
    const reading = make('p', { class: 'quiet is-working', role: 'status' }, 'Reading the files …');
    const found = make('div', { class: 'add-found' }, reading);
    const formFrom = (guessed: Partial<DrivetrainGuess['bike']>) => newBikeForm(readable, guessed, start);

    const shown = (guess: DrivetrainGuess): void => {
      readable = readableFiles(files, guess.files);
      if (go) go.textContent = goWord();
      const question = bike ? mismatch(guess, bike) : null;
      const rest = files.length - guess.files.length;
      const later = `The other ${counted(rest, 'file')} are read when they are worked through.`;
      fill(
        found,
        understoodList(guess.files),
        rest > 0 && make('p', { class: 'quiet' }, later),
        question && make('p', { class: 'remark' }, question),
        !bike && [...guessInWords(guess), formFrom({ ...guess.bike, cassette: shownCogs(guess), name: '' })],
      );
      announce('The files have been read.');
    };
    const failed = (error: Error): void => {
      if (error.name === 'AbortError' || signal.aborted) return;
      fill(
        found,
        make('p', { class: 'fault', role: 'alert' }, error.message),
        understoodList(refusedFiles(error)),
        !bike && [...notGuessed(), formFrom({})],
      );
    };
    guesses.of(files).then(shown).catch(failed);
    return make(
      'section',
      { class: 'add-guess', 'aria-label': 'What the files show' },
      found,
      go && make('p', { class: 'row' }, go),
    );
  };
  return { show };
}
