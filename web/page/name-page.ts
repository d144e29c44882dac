/** Names the view in the browser's title. */
export function namePage(title: string): void {
  document.title = `${title} · cogwright`;
}
