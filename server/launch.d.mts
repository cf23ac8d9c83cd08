/** Installs what package-lock.json names, unless it is there already. */
export function ensureInstalled(): void;
/** Builds server and pages when a source changed; returns the folder of the build. */
export function ensureBuilt(): Promise<string>;
