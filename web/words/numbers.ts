import { chance, percent } from '../../src/numeric/percent.ts';
import { durationWords } from '../../src/report/words/number-words.ts';

const space = '\u00a0';

const inLittleRoom = (percentage: string): string =>
  percentage.replace('under', '<').replace('over', '>').replaceAll(' ', space);

/** A share as a sentence has it, in the room of a column: "19 %", "< 1 %", "> 99 %". */
export const percentFigure = (share: number): string => inLittleRoom(percent(share));

/** The same of a probability, whose ends are never called sure: "> 99 %" at most. */
export const chanceFigure = (probability: number): string => inLittleRoom(chance(probability));

/** An interval of shares: "15 to 24 %"; with a decimal where whole numbers would say nothing: "0.4 to 1.3 %". */
export function percentRange(low: number, high: number): string {
  const digits = high < 0.05 ? 1 : 0;
  return `${(low * 100).toFixed(digits)} to ${(high * 100).toFixed(digits)}${space}%`;
}

/** Seconds as "2 h 05 min", "48 min" or "32 s". */
export function duration(seconds: number): string {
  return seconds < 60 ? `${Math.round(seconds)} s` : durationWords(seconds);
}

/** Bytes as "840 kB" or "1.2 MB". */
export function fileSize(bytes: number): string {
  return bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
