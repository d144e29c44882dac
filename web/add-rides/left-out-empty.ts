/** What to say of files that were left out because nothing is in them; null where there is none. */
export function leftOutEmpty(files: readonly { readonly name: string; readonly size: number }[]): string | null {
  const names = [...new Set(files.filter(({ size }) => size === 0).map(({ name }) => name))];
  if (names.length === 0) return null;
  const said = names.map((name) => `${name} is empty and was left out.`).join(' ');
  return `${said} Copy ${names.length === 1 ? 'it' : 'them'} from the device again.`;
}
