import { type TextStyle, textStyle } from './text-style.ts';
import { wrapText } from './wrap-text.ts';

/** How the text is to look. `width` in characters. */
export interface TextOptions {
  readonly width?: number;
  readonly colour?: boolean;
}

/** Collects the lines of a text report, wrapped to its width. */
export class TextPage {
  readonly width: number;
  readonly style: TextStyle;
  private readonly lines: string[] = [];

  constructor({ width = 90, colour = false }: TextOptions = {}) {
    this.width = width;
    this.style = textStyle(colour);
  }

  heading(text: string): void {
    const title = printable(text);
    if (this.lines.length > 0) this.lines.push('');
    this.lines.push(this.style.heading(title), this.style.faint('='.repeat(title.length)));
  }

  subheading(title: string): void {
    this.lines.push('', this.style.heading(title));
  }

  paragraph(text: string, indent = 0): void {
    this.lines.push(wrapText(printable(text), this.width, ' '.repeat(indent)));
  }

  /** A paragraph with an emphasis laid on every line, after the wrapping, which must not count escape codes. */
  emphasised(text: string, emphasis: (line: string) => string): void {
    this.lines.push(...wrapText(printable(text), this.width).split('\n').map(emphasis));
  }

  bullet(text: string, mark = '-', indent = 2): void {
    this.lines.push(wrapText(printable(text), this.width, `${' '.repeat(indent)}${mark} `));
  }

  /** Lines as they are; what stands in them must be printable already. */
  ready(lines: readonly string[]): void {
    this.lines.push(...lines);
  }

  blank(): void {
    this.lines.push('');
  }

  toString(): string {
    return `${this.lines.join('\n')}\n`;
  }
}

/** File names and notes come from outside: control characters, escape codes among them, must not reach a terminal. */
export function printable(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  return text.replace(/[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u202A-\u202E\u2066-\u2069]/g, '\uFFFD');
}
