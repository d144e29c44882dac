import { make } from '../dom/make.ts';

/** Hands `text` to the reader as a file. */
export function saveFile(name: string, type: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = make('a', { href: address, download: name, class: 'out-of-sight' });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
