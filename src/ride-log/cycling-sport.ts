import { FileError } from '../errors/file-error.ts';

/** Words by which files name riding a bicycle. */
const CYCLING = /cycl|bik|\bride|riding|\bvelo|\brad|\bmtb|\bspin/;
const NO_BICYCLE = /motor|horse/;
/** Words by which files name other sports. Words that are in neither list say nothing. */
const OTHER_SPORT =
  /\brun|jog|walk|\bhik|trek|swim|\brow|\bski|snow|skat|paddl|kayak|canoe|surf|\bsail|golf|climb|mountaineer|\bfly|driv|motor|horse|yoga|strength|diving|tennis|soccer|football|boxing/;

/** What a sport's name says: a bicycle, another sport, or nothing (null, `generic`, `other`, free text of no known meaning). */
export function sportKind(sport: string | null): 'cycling' | 'other' | 'unsaid' {
  const words = (sport ?? '').toLowerCase().replace(/[_-]/g, ' ');
  if (CYCLING.test(words) && !NO_BICYCLE.test(words)) return 'cycling';
  return OTHER_SPORT.test(words) ? 'other' : 'unsaid';
}

/** The error of a file that names only sports other than cycling. */
export const notCycling = (file: string, sport: string): FileError =>
  new FileError(
    file,
    'not-cycling',
    `says that it is ${sport.replaceAll('_', ' ')}, not cycling`,
    'Give a bicycle ride. If this is one, correct its sport where it was recorded and export it again.',
  );
