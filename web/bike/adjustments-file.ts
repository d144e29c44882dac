import { handWritten } from '../add-rides/companion-files.ts';
import { addAdjustmentsFile } from '../api/bikes.ts';
import { announce } from '../dom/announce.ts';
import { fileButton } from '../dom/file-button.ts';
import { make } from '../dom/make.ts';
import { attempt } from '../page/attempt.ts';
import { takenAdjustments } from '../words/taken-adjustments.ts';
import type { BikePage } from './bike-page.ts';

/** Picks that keep what became of the last file while the section is drawn again. */
const outcomes = { 'file-taken': 'quiet', 'file-refused': 'fault' } as const;
type Outcome = keyof typeof outcomes;

/** A button that takes adjustments in from a file, and the place that says what became of the last one. */
export function adjustmentsFile({ bike, picks, refresh }: BikePage): {
  readonly button: HTMLElement;
  readonly outcome: HTMLElement;
} {
  const outcome = make('p', {});
  const show = (): void => {
    const kind = (Object.keys(outcomes) as Outcome[]).find((one) => picks.has(one));
    outcome.hidden = kind === undefined;
    outcome.className = kind ? outcomes[kind] : '';
    outcome.textContent = kind ? picks.get(kind)! : '';
  };
  const say = (kind: Outcome, text: string): void => {
    for (const one of Object.keys(outcomes)) picks.delete(one);
    picks.set(kind, text);
    show();
    announce(text);
  };
  const take = async (file: File): Promise<void> => {
    try {
      const taken = await addAdjustmentsFile(bike.id, file.name, await handWritten(file));
      say('file-taken', `${file.name}: ${takenAdjustments(taken)}`);
    } catch (error) {
      say('file-refused', (error as Error).message);
      return;
    }
    await attempt(refresh);
  };
  show();
  const button = fileButton(
    { accept: '.csv,.tsv,.txt,.json', keep: 'adjustments-file', take: (file) => void take(file) },
    'Take in a file',
  );
  return { button, outcome };
}
