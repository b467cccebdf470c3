import { describe, expect, it } from 'vitest';
import { piecesOf } from '../../../src/components/notation/pieces';
import { notationPlan } from '../../../src/components/notation/plan';
import { scaleFor } from '../../../src/components/notation/systems';
import { phraseNamed } from '../../../src/exercises/phrase';

const plan = notationPlan({ ...phraseNamed('Single paradiddle, accent walk'), feet: 'K--- H---' });
/** As wide as an engraver makes sixteenths: about 35 px a note. */
const widthOf = ({ hands }: (typeof plan)[number]): number => 35 * hands.flatMap((beat) => beat.notes).length;

describe('bars on a narrow page', () => {
  it('stay whole where their letters stay legible', () => {
    const pieces = piecesOf(plan, 820, 1, widthOf);
    expect(pieces.map(({ measure, closes }) => [measure.beats, closes])).toEqual(plan.map(() => [4, true]));
  });

  it('are parted between their beats at 360 px: two and two, the time signature of the whole at the first', () => {
    const pieces = piecesOf(plan, 360, 1, widthOf);
    expect(pieces.map(({ measure, closes }) => `${measure.beats} ${closes}`).slice(0, 4)).toEqual([
      '2 false',
      '2 true',
      '2 false',
      '2 true',
    ]);
    expect(pieces[0]).toMatchObject({ barBeats: 4, measure: { newBeats: true, label: 'accent on 1' } });
    expect(pieces[1].measure).toMatchObject({ newBeats: false, label: '' });
    expect(pieces.flatMap(({ measure }) => measure.hands)).toEqual(plan.flatMap(({ hands }) => hands));
    expect(pieces.flatMap(({ measure }) => measure.feet)).toEqual(plan.flatMap(({ feet }) => feet));
    for (const { measure } of pieces) {
      // A tap's letter is 16 px at full size.
      const scale = scaleFor([{ leastWidth: widthOf(measure), newBeats: measure.newBeats }], 360);
      expect(16 * Math.min(1, scale)).toBeGreaterThanOrEqual(11);
    }
  });

  it('a single beat is never parted', () => {
    expect(piecesOf(plan, 60, 1, widthOf).every(({ measure }) => measure.beats === 1)).toBe(true);
  });
});
