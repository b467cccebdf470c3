import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { takeJsonSchema } from '../../scripts/schemas';

describe('the JSON Schema of a take', () => {
  it('is what its reader checks (rewritten by "npm run schemas")', () => {
    expect(readFileSync('schemas/evenhand-take.schema.json', 'utf8')).toBe(takeJsonSchema());
  });

  it('has the velocity of a hit from 1 to 127', () => {
    const schema = JSON.parse(takeJsonSchema());
    expect(schema.properties.hits.items.properties.velocity).toMatchObject({
      type: 'integer',
      minimum: 1,
      maximum: 127,
    });
  });
});
