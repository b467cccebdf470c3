import { mkdirSync, writeFileSync } from 'node:fs';
import { toJsonSchema } from '@valibot/to-json-schema';
import { takeSchema } from '../src/sessions/take';

/** The JSON Schema of the take format, from the rules its reader has. `npm run schemas`. */
export function takeJsonSchema(): string {
  const schema = toJsonSchema(takeSchema, { errorMode: 'ignore' });
  return `${JSON.stringify({ title: 'evenhand-take, version 1', ...schema }, undefined, 2)}\n`;
}

if (process.argv[1]?.endsWith('main.mjs')) {
  mkdirSync('schemas', { recursive: true });
  writeFileSync('schemas/evenhand-take.schema.json', takeJsonSchema());
}
