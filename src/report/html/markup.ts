/** HTML that is safe to put into a page as it stands. Made by `html` only, or by drawing an SVG. */
export class Markup {
  constructor(readonly text: string) {}
}

/** What may stand in a template. `null`, `undefined` and `false` leave nothing. */
export type MarkupPart = Markup | string | number | null | undefined | false | readonly MarkupPart[];

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Escapes text for element content and for quoted attributes; control characters that HTML forbids become U+FFFD. */
export function escapeHtml(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
      .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F]/g, '\uFFFD')
      .replace(/[&<>"']/g, (mark) => entities[mark])
  );
}

/**
 * Builds HTML from a template; every text put in is escaped, markup is taken as it is.
 *
 * @example html`<p title="${'"a"'}">${'<b>'}</p>`.text // '<p title="&quot;a&quot;">&lt;b&gt;</p>'
 */
export function html(strings: TemplateStringsArray, ...parts: MarkupPart[]): Markup {
  return new Markup(
    strings.reduce((text, string, i) => text + string + (i < parts.length ? textOf(parts[i]) : ''), ''),
  );
}

function textOf(part: MarkupPart): string {
  if (part instanceof Markup) return part.text;
  if (part === null || part === undefined || part === false) return '';
  if (typeof part === 'string' || typeof part === 'number') return escapeHtml(String(part));
  return part.map(textOf).join('');
}
