import type { ErrorRequestHandler } from 'express';
import { RequestError } from '../http/request-error.ts';

const asking: Readonly<Record<string, string>> = {
  'token-missing': 'This cogwright wants a token, once for each browser.',
  'token-wrong': 'That token is not the right one.',
};

/** Without a style of its own: nothing of the page may be had without the token. */
const pageOf = (first: string): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Token wanted: cogwright</title>
</head>
<body>
<main>
<h1>Token wanted</h1>
<p>${first} It stands at the end of the address that the server printed at its start, after “token=”.</p>
<form action="/" method="get">
<p><label for="token">Token</label><br>
<input id="token" name="token" required autofocus autocomplete="off" autocapitalize="none" spellcheck="false" size="34"></p>
<p><button>Open</button></p>
</form>
</main>
</body>
</html>
`;

/** Answers a person's browser that comes without the right token with a page to enter it; everything else is left to the next answer. */
export const tokenPage: ErrorRequestHandler = (error, request, response, next) => {
  const first = error instanceof RequestError ? asking[error.code] : undefined;
  const isPage = request.method === 'GET' && !request.path.startsWith('/api/');
  if (first === undefined || !isPage || request.accepts(['json', 'html']) !== 'html') {
    next(error);
    return;
  }
  response.locals.code = (error as RequestError).code;
  response.status(401).set('cache-control', 'no-store').type('html').send(pageOf(first));
};
