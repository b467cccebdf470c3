import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jsonSchemas } from '../../scripts/schemas';

describe('the JSON Schemas of the formats', () => {
  it.each(Object.entries(jsonSchemas))(
    '%s is what its reader checks (rewritten by "npm run schemas")',
    (file, text) => {
      expect(readFileSync(`schemas/${file}`, 'utf8')).toBe(text);
    },
  );

  it('have the velocity of a hit from 1 to 127', () => {
    const schema = JSON.parse(jsonSchemas['evenhand-take.schema.json']);
    expect(schema.properties.hits.items.properties.velocity).toMatchObject({
      type: 'integer',
      minimum: 1,
      maximum: 127,
    });
  });
});
