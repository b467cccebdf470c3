import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { workerText } from '../../scripts/offline.mjs';

// What a browser does with it: the Service Worker standard. tests/browser/offline.test.ts tries it with the network off.

const worker = readFileSync('scripts/service-worker.js', 'utf8');
const files = new Map([
  ['index.html', '<!doctype html>'],
  ['assets/page-1.js', 'play()'],
]);
const nameIn = (text: string): string | undefined => /evenhand-[0-9a-f]{12}/.exec(text)?.[0];

describe('the service worker of a build', () => {
  it('lists every file, beside itself', () => {
    expect(workerText(worker, files)).toContain('const FILES = ["./assets/page-1.js", "./index.html"];');
  });

  it('is the same for the same files, in whatever order they came', () => {
    expect(workerText(worker, new Map([...files].reverse()))).toBe(workerText(worker, files));
  });

  it('has another name where one byte of one file is another: the browser then knows of an update', () => {
    const changed = workerText(worker, new Map([...files, ['assets/page-1.js', 'stop()']]));
    expect(nameIn(changed)).toBeDefined();
    expect(nameIn(changed)).not.toBe(nameIn(workerText(worker, files)));
  });

  it('never takes over by itself: only when it is told to', () => {
    const calls = [...worker.matchAll(/skipWaiting\(\)/g)];
    expect(calls).toHaveLength(1);
    expect(worker).toContain("if (event.data === 'take over') self.skipWaiting();");
  });
});
