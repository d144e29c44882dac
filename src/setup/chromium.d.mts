/** Path of a Chromium for browser tests; null where there is none. */
export declare function findChromium(): string | null;
export declare function findOrInstallChromium(): string | null;
