import { counted } from '../../src/numeric/counted.ts';
import { chance } from '../../src/numeric/percent.ts';
import type { Bike, BikeSummary, DrivetrainGuess } from '../api/answers.ts';
import { announce } from '../dom/announce.ts';
import { type Child, fill, listen, make } from '../dom/make.ts';
import { points } from '../page/points.ts';
import { leftOutCogs } from '../words/left-out-cogs.ts';
import { likelihoodWord } from '../words/likelihood-word.ts';
import type { Chosen, Work } from './chosen.ts';
import { GuessOnce } from './guess-once.ts';
import { newBikeForm } from './new-bike-form.ts';
import { readableFiles } from './readable-files.ts';
import { refusedFiles } from './refused-files.ts';
import { understoodList } from './understood-list.ts';

interface GuessPlan {
  readonly signal: AbortSignal;
  readonly start: (work: Work) => void;
}

const shownCogs = ({ bike, madeUpCogs }: DrivetrainGuess): number[] =>
  bike.cassette.filter((teeth) => !madeUpCogs.includes(teeth));

/** Cogs that the rides show and the bike does not have, as a question; null where no more than two differ, which a guess may get wrong. Rings are not compared. */
function mismatch(guess: DrivetrainGuess, bike: Bike): string | null {
  const range = (cogs: readonly number[]): string => `${cogs[0]}–${cogs[cogs.length - 1]} with ${cogs.length} cogs`;
  const shown = shownCogs(guess);
  const strange = shown.filter((teeth) => !bike.cassette.includes(teeth));
  if (strange.length <= 2) return null;
  return `These rides look like a cassette of ${range(shown)}; ${bike.name} has ${range(bike.cassette)}. Is it the right bike?`;
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

/** What a bike file says of a bike that is not known yet, in words. */
const describedInWords = (file: string): HTMLElement[] => [
  make('h2', {}, 'Is this the bike?'),
  make('p', {}, `As ${file} describes it. Look it over.`),
];

/** What was understood of the files that were read, and whether they fit the bike that was chosen or described. */
function whatFilesShow(guess: DrivetrainGuess, files: number, given: Bike | undefined): Child[] {
  const question = given ? mismatch(guess, given) : null;
  const rest = files - guess.files.length;
  const later = `The other ${counted(rest, 'file')} are read when they are worked through.`;
  return [
    understoodList(guess.files),
    rest > 0 && make('p', { class: 'quiet' }, later),
    question && make('p', { class: 'remark' }, question),
  ];
}

const goWord = (files: readonly File[]): string => `Work through ${counted(files.length, 'file')}`;
const reading = () => make('p', { class: 'quiet is-working', role: 'status' }, 'Reading the files …');

/** The step after choosing files: what they show, and for a new bike its drivetrain, described or guessed, to put right. */
export function makeGuessStep({ signal, start }: GuessPlan) {
  const guesses = new GuessOnce(signal);

  const show = (chosen: Chosen, bike: BikeSummary | null): HTMLElement => {
    const { rides: files, adjustments } = chosen;
    const described = bike ? null : chosen.described;
    let readable = files;
    const go = bike && make('button', { type: 'button' }, goWord([...files, ...adjustments]));
    if (go)
      listen(go, {
        click: () => start({ rides: readable, adjustments, bikeId: bike.id, bikeName: bike.bike.name, made: false }),
      });
    const found = make('div', { class: 'add-found' }, reading());
    /** The form for a new bike; nothing where the bike is known. */
    const formFrom = (words: Child, guessed: Partial<Bike>): Child =>
      !bike && [
        described ? describedInWords(described.file) : words,
        newBikeForm({ rides: readable, adjustments }, described?.bike ?? guessed, start),
      ];

    const shown = (guess: DrivetrainGuess): void => {
      readable = readableFiles(files, guess.files);
      if (go) go.textContent = goWord([...readable, ...adjustments]);
      fill(
        found,
        whatFilesShow(guess, files.length, bike?.bike ?? described?.bike),
        formFrom(guessInWords(guess), { ...guess.bike, cassette: shownCogs(guess), name: '' }),
      );
      announce('The files have been read.');
    };
    const failed = (error: Error): void => {
      if (error.name === 'AbortError' || signal.aborted) return;
      fill(
        found,
        make('p', { class: 'fault', role: 'alert' }, error.message),
        understoodList(refusedFiles(error)),
        formFrom(notGuessed(), {}),
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
