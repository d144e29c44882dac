/** A name fit for a file: "Larch hut hardtail" becomes "larch-hut-hardtail". */
export function fileStem(...parts: readonly string[]): string {
  return parts
    .join(' ')
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 80);
}
