const LONGEST = 200;
const EXTENSION = /\.[a-z0-9]{1,8}(\.gz)?$/i;

/**
 * A sender's file name made fit for showing: the last part of a path, without control characters, not too long. It is
 * never used to reach a file.
 *
 * @example displayName('../../etc/my ride.fit') // 'my ride.fit'
 */
export function displayName(name: string | undefined): string {
  const last = (name ?? '').split(/[/\\]/).at(-1) ?? '';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  const clean = last.replaceAll(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g, '').trim();
  return clean === '' || clean === '.' || clean === '..' ? 'unnamed file' : shortened(clean);
}

/** Whole characters only, with the extension kept. */
function shortened(name: string): string {
  const characters = Array.from(name);
  if (characters.length <= LONGEST) return name;
  const extension = EXTENSION.exec(name)?.[0] ?? '';
  return characters.slice(0, LONGEST - extension.length).join('') + extension;
}
