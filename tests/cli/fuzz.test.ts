import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { fuzzed } from './fuzz/fuzz';

const folder = mkdtempSync(join(tmpdir(), 'evenhand-fuzz-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('2,000 damaged files through the command line: each sound or one line, nothing hangs, and what is sound is graded', () => {
  const { cases, refused, broken } = fuzzed(2000, 2026, folder);
  expect(broken).toEqual([]);
  // Neither are all of them hopeless nor does damage pass for nothing.
  expect(refused).toBeGreaterThan(cases / 2);
  expect(refused).toBeLessThan(0.95 * cases);
}, 900_000);
