import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { gather } from '../../../src/grading/evidence/evidence';
import {
  judgedMeasures,
  measureKeys,
  measures,
  type JudgedMeasure,
  type Measure,
} from '../../../src/grading/measures';
import { settingsOf } from '../../../src/settings';
import { figureNames } from '../../../src/take/live/figures';
import { accentWalk, played } from '../played';

const FOLDER = join(import.meta.dirname, '../../../src/grading/measures');
/** What the folder holds beside measures: the contract, and the list. */
const NOT_MEASURES = ['measure.ts', 'index.ts'];

const keyOf = (file: string): string =>
  file.replace(/\.ts$/, '').replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());

const inFolder = readdirSync(FOLDER).filter((file) => !NOT_MEASURES.includes(file));
const limits = (['first year', 'working', 'recital'] as const).map((name) => settingsOf(name));

describe('the measures', () => {
  it('are the files of their folder, one each, and none is left out of the index', () => {
    expect(inFolder.map(keyOf).sort()).toEqual([...measureKeys].sort());
  });

  it.each(inFolder)('%s exports its measure under its own key', async (file) => {
    const module = (await import(join(FOLDER, file))) as Record<string, Measure>;
    expect(module[keyOf(file)]?.key).toBe(keyOf(file));
    expect(measures).toContain(module[keyOf(file)]);
  });

  it('have a figure, or one in ms and one in dB', () => {
    for (const { figures } of measures) {
      const parts = figures.map(({ part }) => part);
      expect([[null], ['ms', 'dB']]).toContainEqual(parts);
    }
  });

  it.each(judgedMeasures.map((one) => [one.key, one] as const))(
    '%s has limits in order: ideal, holds, not yet',
    (_, { figures }: JudgedMeasure) => {
      for (const settings of limits) {
        for (const { limit } of figures) {
          for (const at of [{ gapMs: 60 }, { gapMs: 300 }, { gapMs: 125, value: -1e9 }]) {
            const { ideal, holds, notYet } = limit(settings, at);
            expect(Math.sign(notYet - holds)).toBe(Math.sign(holds - ideal));
            expect(Math.abs(notYet - holds)).toBeGreaterThan(0);
          }
        }
      }
    },
  );

  it('whose limit goes by something say so, and no others', () => {
    for (const { figures } of judgedMeasures) {
      for (const { limit, limitGoesBy } of figures) {
        const [settings] = limits;
        const plain = limit(settings, { gapMs: 400 });
        const atGap = limit(settings, { gapMs: 60 });
        const onSide = limit(settings, { gapMs: 400, value: -1e9 });
        expect(limitGoesBy === 'the gap').toBe(atGap.holds !== plain.holds);
        expect(limitGoesBy === 'the side').toBe(onSide.holds !== plain.holds);
      }
    }
  });

  it('have a live number that the bar view knows, a rule that mends them, and columns apart', () => {
    for (const { live, remedy } of judgedMeasures) {
      expect(figureNames).toContain(live);
      expect(remedy.tempoShare).toBeLessThanOrEqual(1);
    }
    const ranks = judgedMeasures.flatMap(({ column }) => column?.rank ?? []);
    expect(new Set(ranks).size).toBe(ranks.length);
  });

  it('cast a shadow only on measures that there are', () => {
    for (const { shadows = [] } of judgedMeasures) {
      for (const key of shadows) expect(measureKeys).toContain(key);
    }
  });

  it('have no stroke in two groups that are held against each other', () => {
    const evidence = gather(played({ bars: accentWalk, cycles: 2 }));
    for (const { figures } of measures) {
      for (const figure of figures) {
        const [about, ...against] = figure.groups(evidence);
        expect(about).toBeDefined();
        // a group that is held against another begins where that one ends
        expect(new Set(figure.groups(evidence).map(({ name }) => name)).size).toBe(1 + against.length);
      }
    }
  });
});
