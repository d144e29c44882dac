import { counted } from '../../src/numeric/counted.ts';
import { chance } from '../../src/numeric/percent.ts';
import type { Bike, BikeSummary, DrivetrainGuess, ReadFile } from '../api/answers.ts';
import { announce } from '../dom/announce.ts';
import { type Child, fill, listen, make } from '../dom/make.ts';
import { points } from '../page/points.ts';
import { leftOutCogs } from '../words/left-out-cogs.ts';
import { likelihoodWord } from '../words/likelihood-word.ts';
import { NO_COG_SEEN } from '../words/without-cadence.ts';
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

/** Cogs of the guess that a file shows; none where no drivetrain could be guessed. */
const shownCogs = ({ bike, madeUpCogs }: DrivetrainGuess): number[] =>
  bike ? bike.cassette.filter((teeth) => !madeUpCogs.includes(teeth)) : [];

/** Cogs that the rides show and the bike does not have, as a question; null where no more than two differ, which a guess may get wrong. Rings are not compared. */
function mismatch(guess: DrivetrainGuess, bike: Bike): string | null {
  const range = (cogs: readonly number[]): string => `${cogs[0]}–${cogs[cogs.length - 1]} with ${cogs.length} cogs`;
  const shown = shownCogs(guess);
  const strange = shown.filter((teeth) => !bike.cassette.includes(teeth));
  if (strange.length <= 2) return null;
  return `These rides look like a cassette of ${range(shown)}; ${bike.name} has ${range(bike.cassette)}. Is it the right bike?`;
}

const guessedFrom = (withCadence: boolean): string =>
  withCadence
    ? 'Guessed from the rides'
    : `${NO_COG_SEEN}, and these rides hold none: nothing is measured here. Guessed from the gear records as they stand`;

/** What the files show of a bike that is not known yet, in words. */
const guessInWords = ({ certainty, notes, madeUpCogs, withCadence }: DrivetrainGuess): (HTMLElement | false)[] => [
  make('h2', {}, 'Is this the bike?'),
  make(
    'p',
    {},
    `${guessedFrom(withCadence)}, ${likelihoodWord(certainty)} right (${chance(certainty)}). Put right what is wrong, and give it a name.`,
  ),
  notes.length > 0 && points(notes),
  madeUpCogs.length > 0 && make('p', { class: 'remark' }, leftOutCogs(madeUpCogs)),
];

const notGuessed = (notes: readonly string[] = [], withCadence = true): (HTMLElement | false)[] => [
  make('h2', {}, 'Describe the bike'),
  make(
    'p',
    {},
    `The drivetrain could not be guessed from these files. ${withCadence ? '' : `${NO_COG_SEEN}, and they hold none. `}Describe it here, or choose other files.`,
  ),
  notes.length > 0 && points(notes),
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
    make('h2', {}, 'What the files show'),
    understoodList(guess.files),
    rest > 0 && make('p', { class: 'quiet' }, later),
    question && make('p', { class: 'remark' }, question),
  ];
}

/** Why the files could not be read, with what is wrong in each. */
const whyRefused = ({ message }: Error, refused: readonly ReadFile[]): Child[] => [
  make('p', { class: 'fault', role: 'alert' }, message),
  refused.length > 0 && [make('h2', {}, 'What the files show'), understoodList(refused)],
];

const workFor = ({ id, bike }: BikeSummary) => ({ bikeId: id, bikeName: bike.name, made: false });
const reading = () => make('p', { class: 'quiet is-working', role: 'status' }, 'Reading the files …');

/** The files that are worth sending: all, until some were read in vain. The button counts them, and is gone where none is left. */
function filesToSend({ rides, adjustments }: Chosen) {
  const go = make('button', { type: 'button' });
  let readable = rides;
  const leaveOut = (told: readonly ReadFile[]): void => {
    readable = readableFiles(rides, told);
    const count = readable.length + adjustments.length;
    go.textContent = `Work through ${counted(count, 'file')}`;
    go.hidden = count === 0;
  };
  leaveOut([]);
  return { go, leaveOut, chosen: () => ({ rides: readable, adjustments }) };
}

/** Shows what the files show, once they have been read, and the way on. */
function showFiles(
  { signal, start, guesses }: GuessPlan & { readonly guesses: GuessOnce },
  chosen: Chosen,
  bike: BikeSummary | null,
): HTMLElement {
  const { rides: files } = chosen;
  const described = bike ? null : chosen.described;
  const toSend = filesToSend(chosen);
  const found = make('div', { class: 'add-found' }, reading());
  /** The form for a new bike; nothing where the bike is known. */
  const formFrom = (words: Child, guessed: Parameters<typeof newBikeForm>[1]): Child =>
    !bike && [
      described ? describedInWords(described.file) : words,
      newBikeForm(toSend.chosen(), described?.bike ?? guessed, start),
    ];

  const shown = (guess: DrivetrainGuess): void => {
    toSend.leaveOut(guess.files);
    fill(
      found,
      whatFilesShow(guess, files.length, bike?.bike ?? described?.bike),
      guess.bike && !guess.ridesApart
        ? formFrom(guessInWords(guess), {
            ...guess.bike,
            cassette: shownCogs(guess),
            unseen: guess.madeUpCogs,
            name: '',
          })
        : formFrom(notGuessed(guess.notes, guess.withCadence), {}),
    );
    announce('The files have been read.');
  };
  const failed = (error: Error): void => {
    if (error.name === 'AbortError' || signal.aborted) return;
    const refused = refusedFiles(error);
    toSend.leaveOut(refused);
    fill(found, whyRefused(error, refused), formFrom(notGuessed(), {}));
  };
  guesses.of(files).then(shown).catch(failed);
  return make(
    'section',
    { class: 'add-guess', 'aria-label': 'What the files show' },
    found,
    bike &&
      make('p', { class: 'row' }, listen(toSend.go, { click: () => start({ ...toSend.chosen(), ...workFor(bike) }) })),
  );
}

/** The step after choosing files: what they show, and for a new bike its drivetrain, described or guessed, to put right. */
export function makeGuessStep(plan: GuessPlan) {
  const guesses = new GuessOnce(plan.signal);
  return {
    show: (chosen: Chosen, bike: BikeSummary | null): HTMLElement => showFiles({ ...plan, guesses }, chosen, bike),
  };
}
