import { durationWords } from '../../src/report/words/number-words.ts';

const space = '\u00a0';

/** 0 to 1 as a percentage: "19 %", "< 1 %", "> 99 %". */
export function percent(share: number): string {
  if (share > 0 && share < 0.01) return `<${space}1${space}%`;
  if (share < 1 && share > 0.99) return `>${space}99${space}%`;
  return `${Math.round(share * 100)}${space}%`;
}

/** A probability as a percentage; the ends are never called sure: "> 99 %" at most. */
export const probably = (probability: number): string => percent(Math.min(0.999, Math.max(0.001, probability)));

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

/** A signed number with a true minus sign: "+2", "−1.5", "0". */
export function signed(value: number, digits?: number): string {
  const text = digits === undefined ? String(Math.abs(value)) : Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? '−' : '+'}${text}`;
}

/** "a", "a and b", "a, b and c". */
export function inARow(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}
