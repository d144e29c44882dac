/**
 * Base of every error that cogwright throws on purpose. `code` is stable and goes into reports; `message` is made for
 * the rider: which file, what was found, what is allowed, how to mend it. Facts stand as fields of the subclasses.
 *
 * Rule of the house: broken files and wrong parameters throw; too little data is a documented value, never a throw.
 */
export abstract class CogwrightError extends Error {
  abstract override readonly name: string;
  abstract readonly code: string;
}
