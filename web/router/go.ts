/** Told to whoever shows the views, when the address has changed. */
export const addressChanged = 'cogwright:address';

/** Goes to another address of the page. */
export function go(address: string): void {
  history.pushState(null, '', address);
  dispatchEvent(new Event(addressChanged));
}

/** Shows the present address anew, from its beginning. */
export function reopen(): void {
  dispatchEvent(new Event(addressChanged));
}

/** Changes the address without going anywhere: for what is picked within a view. */
export function note(address: string): void {
  history.replaceState(history.state, '', address);
}
