import type { Plugin } from 'vite';

/** The service worker with the list of its files, and a name that changes with any of them, put in. */
export function workerText(worker: string, files: ReadonlyMap<string, string | Uint8Array>): string;

/** Writes `sw.js` beside the build. */
export function offline(folder?: string): Plugin;
