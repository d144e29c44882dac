import { readFileSync } from 'node:fs';
import { root } from './project.mjs';
import { orStop } from './run.mjs';

/**
 * Ends the program with a sentence where the libraries do not run on this Node: they would end with errors of their own,
 * some of them only half-way through. Which versions do stands in package.json alone.
 */
export function ensureNodeVersion(version = process.versions.node) {
  const wanted = JSON.parse(readFileSync(`${root}package.json`, 'utf8')).engines.node;
  orStop(
    fitsVersion(version, wanted) ? 0 : 1,
    `Node.js ${version} does not do: the libraries need ${inWords(wanted)}. Install one of these and run the command again.`,
  );
}

/**
 * Whether a version is one of those wanted: parts joined by `||`, each `^20.19.0` (this one or a later one of 20) or `>=24`
 * (this one or any later).
 */
export function fitsVersion(version, wanted) {
  const own = numbersOf(version);
  return partsOf(wanted).some(({ sameMajor, least }) => (!sameMajor || own[0] === least[0]) && isFrom(own, least));
}

const inWords = (wanted) =>
  partsOf(wanted)
    .map(({ sameMajor, least }) => {
      const from = least.join('.').replace(/(\.0)+$/, '');
      return sameMajor ? `${from} or a later ${least[0]}` : `${from} or newer`;
    })
    .join(', or ');

function partsOf(wanted) {
  return wanted.split('||').map((part) => {
    const [, sign, least] = /^(\^|>=)(\d[\d.]*)$/.exec(part.trim());
    return { sameMajor: sign === '^', least: numbersOf(least) };
  });
}

/** Major, minor and patch; what follows a hyphen (`-nightly`) is left out, and what is missing is 0. */
function numbersOf(version) {
  const [major, minor = 0, patch = 0] = version.split('-')[0].split('.').map(Number);
  return [major, minor, patch];
}

function isFrom(own, least) {
  const differs = own.findIndex((number, place) => number !== least[place]);
  return differs < 0 || own[differs] > least[differs];
}
