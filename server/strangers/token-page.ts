import type { ErrorRequestHandler, Request } from 'express';
import { escapeHtml } from '../../src/report/html/markup.ts';
import { RequestError } from '../http/request-error.ts';
import { tokenPagePolicy, tokenStyle } from './token-style.ts';

const asking: Readonly<Record<string, string>> = {
  'token-missing': 'This cogwright wants a token, once for each browser.',
  'token-wrong':
    'That token is not the right one, or not any more: unless it was given one, the server makes a new one at each start.',
};

/** The style stands in the page itself: no file may be had without the token. `kept`: what the address carried beside it. */
const pageOf = (first: string, kept: readonly (readonly [name: string, value: string])[]): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Token wanted: cogwright</title>
<style>${tokenStyle}</style>
</head>
<body>
<main>
<h1>Token wanted</h1>
<p>${first} It stands at the end of the address that the server printed at its start, after “token=”. The whole address may be pasted too.</p>
<form method="get">
${kept.map(([name, value]) => `<input type="hidden" name="${escapeHtml(name)}" value="${escapeHtml(value)}">\n`).join('')}<p><label for="token">Token</label>
<input id="token" name="token" required autofocus autocomplete="off" autocapitalize="none" spellcheck="false"></p>
<button>Open</button>
</form>
</main>
</body>
</html>
`;

/** What the address asks for beside the token, so that the form leads to where its reader wanted to go. */
const keptOf = ({ query }: Request): (readonly [string, string])[] =>
  Object.entries(query).flatMap(([name, value]) =>
    name !== 'token' && typeof value === 'string' ? [[name, value] as const] : [],
  );

/** Answers a person's browser that comes without the right token with a page to enter it; everything else is left to the next answer. */
export const tokenPage: ErrorRequestHandler = (error, request, response, next) => {
  const first = error instanceof RequestError ? asking[error.code] : undefined;
  const isPage = request.method === 'GET' && !request.path.startsWith('/api/');
  if (first === undefined || !isPage || request.accepts(['json', 'html']) !== 'html') {
    next(error);
    return;
  }
  response.locals.code = (error as RequestError).code;
  response.status(401).set({ 'cache-control': 'no-store', 'content-security-policy': tokenPagePolicy });
  response.type('html').send(pageOf(first, keptOf(request)));
};
