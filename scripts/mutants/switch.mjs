// Loaded before anything else by every Node process of a mutation run: says which bug is on, and notes which were reached.
import { appendFileSync } from 'node:fs';

const on = Number(process.env.EVENHAND_MUTANT ?? '-1');
const reached = new Set();
globalThis.$mutant = (number) => {
  reached.add(number);
  return number === on;
};
globalThis.$reached = reached;

// The command line run as a process of its own: what it reached is of the test that runs it.
const log = process.env.EVENHAND_REACHED;
if (log !== undefined && process.argv[1]?.endsWith('evenhand.js')) {
  process.on('exit', () => {
    appendFileSync(log, `${JSON.stringify({ file: 'tests/cli/process.test.ts', reached: [...reached] })}\n`);
  });
}
