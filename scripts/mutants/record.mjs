// Set up before each test file of the first run: notes which bugs it reaches.
import { appendFileSync } from 'node:fs';
import { relative } from 'node:path';
import { afterAll, expect } from 'vitest';

const log = process.env.EVENHAND_REACHED;
globalThis.$reached.clear();
afterAll(() => {
  if (log === undefined) return;
  const file = relative(process.cwd(), expect.getState().testPath);
  appendFileSync(log, `${JSON.stringify({ file, reached: [...globalThis.$reached] })}\n`);
});
