import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../../src/exercises/phrase';
import { choiceOf } from '../../../src/grading/chosen';
import { modelTake } from '../../../src/model/model-player';
import {
  noteHtml,
  noteMarkdown,
  proposedTarget,
  targetsThatLead,
} from '../../../src/sessions/paper/lesson-note';
import { withFirst } from '../../../src/sessions/take-first';
import { gradeTake } from '../../../src/take/grade-take';

const { take } = modelTake({
  phrase: phraseNamed('Single paradiddle, accent walk'),
  bpm: 84,
  seed: 21,
  cycles: 8,
  timingSdMs: 4,
  levelSdDb: 0.6,
  surfaces: 2,
  faults: [
    { kind: 'leak-before', hand: 'L', db: 7, variation: 'accent on 4' },
    { kind: 'late', hand: 'L', ms: 16 },
  ],
});
const report = gradeTake(take);
const lag = report.others.find(({ measure }) => measure === 'lag')!;
const own = { take, report };
const chosen = { take: withFirst(take, choiceOf(lag)), report };
const text = { student: '', date: '2026-11-30', words: '', target: '' };

describe('a note on a take with something else first', () => {
  const page = noteHtml(text, [chosen]);
  const markdown = noteMarkdown(text, [chosen]);

  it('leads with what was chosen, and says that it was, and what the report leads with', () => {
    expect(page).toContain(`<p class="sentence">${lag.sentence}</p>`);
    for (const note of [page, markdown]) {
      expect(note).toContain('Chosen by the teacher to come first.');
      expect(note).toContain('The report itself leads with: Accent on 4 is the weak bar');
    }
    expect(markdown).toContain(`**${lag.sentence}**`);
  });

  it('has its picture and its column', () => {
    expect(page).toContain(`${lag.variation[0].toUpperCase()}${lag.variation.slice(1)}, lag`);
    expect(page).toMatch(/<th scope="col">lag<\/th>/);
    expect(noteHtml(text, [own])).toContain('Accent on 4, leak before');
  });

  it('proposes its target, and knows what else would have been proposed', () => {
    expect(proposedTarget(chosen)).toMatch(/lag/);
    expect(targetsThatLead(chosen)).toEqual([proposedTarget(own), proposedTarget(chosen)]);
  });

  it('says nothing of a choice where none was made', () => {
    expect(noteHtml(text, [own])).not.toMatch(/Chosen by/);
    expect(withFirst(take, null)).toBe(take);
  });
});
