import { FileError } from '../errors/file-error.ts';

/** Words by which files name riding a bicycle. */
const CYCLING = /cycl|bik|ride|riding|velo|rad|mtb|spin/;
/** Words that name no sport. */
const NO_SPORT = /^(|generic|other|all|transition|multisport|training|fitness_equipment|unknown|\W+|\d+)$/;
/** Words by which files name other sports. Free text that names none of them says nothing. */
const OTHER_SPORT =
  /run|jog|walk|hik|trek|swim|row|ski|snow|skat|paddl|kayak|canoe|surf|sail|golf|climb|mountaineer|fly|driv|motor|horse|yoga|strength|weight|dive|diving|tennis|soccer|football|boxing|triathlon/;

/** What a file says of its sport: a bicycle, another sport, or nothing (null, `generic`, free text of no known meaning). */
export function sportKind(sport: string | null): 'cycling' | 'other' | 'unsaid' {
  const word = (sport ?? '').trim().toLowerCase();
  if (NO_SPORT.test(word)) return 'unsaid';
  if (CYCLING.test(word) && !/motorbik|motorcycl|horse/.test(word)) return 'cycling';
  return OTHER_SPORT.test(word) ? 'other' : 'unsaid';
}

/** The error of a file that names only sports other than cycling. */
export const notCycling = (file: string, sport: string): FileError =>
  new FileError(
    file,
    'not-cycling',
    `says that it is ${sport.replaceAll('_', ' ')}, not cycling`,
    'Give a bicycle ride. If this is one, correct its sport where it was recorded and export it again.',
  );
