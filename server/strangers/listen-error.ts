import { CogwrightError } from '../../src/errors/cogwright-error.ts';

const reasons: Readonly<Record<string, { code: string; words: string }>> = {
  EADDRINUSE: { code: 'port-in-use', words: 'something is listening there already. Stop it, or name another --port.' },
  EACCES: { code: 'port-forbidden', words: 'you may not listen there. Name a --port above 1023.' },
  EADDRNOTAVAIL: {
    code: 'address-unknown',
    words: 'this machine has no such address. Name one of its own with --listen.',
  },
  ENOTFOUND: { code: 'address-unknown', words: 'no machine has that name. Name an address with --listen.' },
};

/** The server cannot listen where it was told to. */
export class ListenError extends CogwrightError {
  override readonly name = 'ListenError';
  readonly code: string;
  constructor(
    readonly address: string,
    readonly port: number,
    systemCode: string,
  ) {
    const reason = reasons[systemCode] ?? { code: 'cannot-listen', words: `the system refuses (${systemCode}).` };
    super(`${address}, port ${port}: ${reason.words}`);
    this.code = reason.code;
  }
}

/** A token that is given but too short to protect anything. */
export class WeakTokenError extends CogwrightError {
  override readonly name = 'WeakTokenError';
  readonly code = 'token-too-short';
  constructor(readonly shortest: number) {
    super(`--token: is too short. Take at least ${shortest} characters, or leave it out and a token is made for you.`);
  }
}
