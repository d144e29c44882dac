/** Emphasis for a terminal. Meaning never hangs on it: without colour the words are the same. */
export interface TextStyle {
  readonly heading: (text: string) => string;
  readonly alarm: (text: string) => string;
  readonly good: (text: string) => string;
  /** For what is neither. */
  readonly open: (text: string) => string;
  readonly faint: (text: string) => string;
}

const plain = (text: string): string => text;
const code = (open: number, close: number) => (text: string) => `\u001B[${open}m${text}\u001B[${close}m`;

/** Escape codes where colour is wanted, else none. */
export function textStyle(colour: boolean): TextStyle {
  if (!colour) return { heading: plain, alarm: plain, good: plain, open: plain, faint: plain };
  return { heading: code(1, 22), alarm: code(33, 39), good: code(32, 39), open: code(1, 22), faint: code(2, 22) };
}
