import type { Rivals } from './rivals.ts';
import { namedBySkips, TELLS } from './tells-apart.ts';

/** How long a check ride may ask for pedalling under load, in words: longer than an hour is a ride of its own. */
const lengths = [
  { minutes: 20, words: 'twenty' },
  { minutes: 30, words: 'thirty' },
  { minutes: 45, words: 'forty-five' },
  { minutes: 60, words: 'sixty' },
] as const;

/** A stretch of pedalling under load, and how often its skips name the right one of two causes. */
interface SkipStretch {
  readonly words: string;
  readonly named: number;
}

/** The shortest stretch whose skips tell two causes apart; the longest where none does. */
export function skipStretch({ lookAhead, rows }: Pick<Rivals, 'lookAhead' | 'rows'>): SkipStretch {
  const stretches = lengths.map(({ minutes, words }) => {
    const [one, other] = rows.map((own) => own.map((row) => (lookAhead.skipsPerHour[row] * minutes) / 60));
    return { words, named: namedBySkips(one, other) };
  });
  return stretches.find(({ named }) => named >= TELLS) ?? stretches[stretches.length - 1];
}
