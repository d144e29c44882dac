/** The line by which a page tells that cogwright wrote it. It stands near the top. */
export const GENERATOR = '<meta name="generator" content="cogwright">';

/** True where the beginning of a file is that of a page which cogwright wrote. */
export const isHtmlReport = (beginning: string): boolean =>
  beginning.startsWith('<!doctype html>') && beginning.includes(GENERATOR);
