import { go } from './go.ts';

/** The page's own address behind a clicked link, or null where the browser should do what it always does. */
function ownAddress(event: MouseEvent): string | null {
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey)
    return null;
  const link = (event.target as Element).closest?.('a[href]');
  if (!(link instanceof HTMLAnchorElement) || link.target || link.hasAttribute('download')) return null;
  if (
    link.origin !== location.origin ||
    link.pathname.startsWith('/api/') ||
    link.getAttribute('href')!.startsWith('#')
  )
    return null;
  return link.pathname + link.search + link.hash;
}

/** Lets links within the page change the view without loading the page again. */
export function followLinks(): void {
  document.addEventListener('click', (event) => {
    const address = ownAddress(event);
    if (address === null) return;
    event.preventDefault();
    go(address);
  });
}
