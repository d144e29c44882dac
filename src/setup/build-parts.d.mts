/** A part of dist that is made from sources by a command; see build-part.mjs. */
export interface BuildPart {
  readonly name: string;
  readonly sources: string[];
  readonly args: string[];
}

export declare const program: BuildPart;
export declare const page: BuildPart;
export declare function allParts(): BuildPart[];
