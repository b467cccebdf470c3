import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { toJsonSchema } from '@valibot/to-json-schema';
import { draftSchema } from '../src/sessions/draft';
import { givenSchema } from '../src/sessions/given';
import { librarySchema } from '../src/sessions/library';
import { phraseSchema } from '../src/sessions/phrase-file';
import { returnedSchema } from '../src/sessions/returned-takes';
import { rigFileSchema } from '../src/sessions/rig-file';
import { takeSchema } from '../src/sessions/take-schema';
import { weekSchema } from '../src/sessions/week-sheet';

/** JSON Schemas of the formats, by file name, from the rules their readers have. `npm run schemas` writes them. */
export const jsonSchemas: Readonly<Record<string, string>> = {
  'evenhand-take.schema.json': printed('evenhand-take, version 1', takeSchema),
  'evenhand-phrase.schema.json': printed('evenhand-phrase, version 1', phraseSchema),
  'evenhand-rig.schema.json': printed('evenhand-rig, version 1', rigFileSchema),
  'evenhand-takes.schema.json': printed('evenhand-takes, version 1', returnedSchema),
  'evenhand-week.schema.json': printed('evenhand-week, version 2', weekSchema),
  'evenhand-draft.schema.json': printed('evenhand-draft, version 1', draftSchema),
  'evenhand-given.schema.json': printed('evenhand-given, version 1', givenSchema),
  'evenhand-library.schema.json': printed('evenhand-library, version 1', librarySchema),
};

function printed(title: string, schema: Parameters<typeof toJsonSchema>[0]): string {
  return `${JSON.stringify({ title, ...toJsonSchema(schema, { errorMode: 'ignore' }) }, undefined, 2)}\n`;
}

if (process.argv[1]?.endsWith('main.mjs')) {
  mkdirSync('schemas', { recursive: true });
  for (const [file, text] of Object.entries(jsonSchemas)) writeFileSync(join('schemas', file), text);
}
