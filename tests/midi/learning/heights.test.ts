import { describe, expect, it } from 'vitest';
import {
  allAnswered,
  askedAgain,
  nextAsked,
  type Answers,
  type Asked,
} from '../../../src/midi/learning/asked-strokes';
import {
  heightAdvice,
  heightsAsked,
  heightsShown,
  rigWithHeights,
  type HeightProblem,
} from '../../../src/midi/learning/heights';
import { rigWithThresholds, softestAsked } from '../../../src/midi/learning/softest';
import { plainRigOf, reportedBy, type ModelKit } from '../../model-kit';
import { settingsOf } from '../../../src/settings';
import type { RawHit } from '../../../src/stroke';
import { struckAsAsked } from './strikes';

const settings = settingsOf('working');
const kit: ModelKit = {
  pads: [
    {
      id: 'pad',
      note: 38,
      forerunner: { share: 0.2, afterMs: -4, spreadMs: 1, ratio: 0.3 },
      echo: { share: 0.3, afterMs: 60, spreadMs: 8, ratio: 0.3 },
    },
  ],
};
const rig = plainRigOf(kit);
const hit = (atMs: number, velocity = 80, note = 38): RawHit => ({
  atMs,
  port: 'Model kit',
  channel: 10,
  note,
  velocity,
});
const answered = <A extends Asked>(state: Answers<A>, hits: readonly RawHit[]) =>
  hits.reduce(nextAsked<A>(rig), state);

describe('strokes asked for one by one', () => {
  const two = { asked: [2, 1].map((strokes) => ({ surface: 'pad', hand: 'R' as const, strokes })) };
  const start = { ...heightsAsked(rig), ...two, given: [[], []] };

  it('a pause of a second leads on; strokes before it are left out', () => {
    const state = answered(start, [hit(0), hit(500), hit(1000), hit(1500)]);
    expect(state).toMatchObject({ at: 1, given: [[80, 80], []], ignored: { over: 2 } });
    expect(allAnswered(answered(state, [hit(2600, 50)]))).toBe(true);
  });

  it('a forerunner gives way to its stroke, an echo is left out', () => {
    const state = answered(start, [hit(0, 20), hit(4, 90), hit(64, 15), hit(500, 88)]);
    expect(state).toMatchObject({ at: 1, given: [[90, 88], []], ignored: { falseNotes: 2 } });
  });

  it('other surfaces count as elsewhere', () => {
    expect(answered(start, [hit(0, 80, 51)]).ignored.elsewhere).toBe(1);
  });

  it('may be asked again: what is being answered, or else the last', () => {
    const first = answered(start, [hit(0), hit(500)]);
    expect(askedAgain(first)).toMatchObject({ at: 0, given: [[], []] });
    expect(askedAgain(answered(start, [hit(0)]))).toMatchObject({ at: 0, given: [[], []] });
  });
});

describe('heights', () => {
  const asked = heightsAsked(rig);
  const levels = { low: -24, half: -14, full: -4 };

  it('asks for eight strokes a hand at each height, of a pad for both hands 48', () => {
    expect(asked.asked).toHaveLength(6);
    expect(asked.asked.reduce((sum, { strokes }) => sum + strokes, 0)).toBe(48);
  });

  it('are found within 0.5 dB on a pad with forerunners and echoes, medians of a player who spreads by 0.6 dB', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const strikes = struckAsAsked(asked.asked, ({ height }) => levels[height], seed, 0.6);
      const shown = heightsShown(answered(asked, reportedBy(kit, strikes, seed).hits), settings);
      expect(shown).toHaveLength(2);
      for (const { heights, problems } of shown) {
        expect(problems).toEqual([]);
        for (const name of ['low', 'half', 'full'] as const) {
          expect(heights![name].n).toBe(8);
          expect(Math.abs(heights![name].db - levels[name])).toBeLessThan(0.8);
        }
      }
      const errors = shown.flatMap(({ heights }) =>
        (['low', 'half', 'full'] as const).map((name) => heights![name].db - levels[name]),
      );
      expect(Math.abs(errors.reduce((a, b) => a + b, 0) / errors.length)).toBeLessThan(0.5);
    }
  });

  const shownBy = (db: typeof levels, spreadDb: number) => {
    const strikes = struckAsAsked(asked.asked, ({ height }) => db[height], 3, spreadDb);
    return heightsShown(answered(asked, reportedBy(kit, strikes, 3).hits), settings)[0];
  };
  const kinds = ({ problems }: { problems: readonly HeightProblem[] }) => problems.map(({ kind }) => kind);

  it.each([
    ['a pad that is too hot clips', { low: -20, half: -8, full: 2 }, ['clipping']],
    [
      'one that is too cold is quiet and loses the low end',
      { low: -48, half: -30, full: -14 },
      ['quiet', 'dead low end'],
    ],
    ['one height for two overlaps', { low: -24, half: -4, full: -4 }, ['overlap']],
    ['three near ones are narrow', { low: -10, half: -7, full: -4 }, ['narrow']],
  ])('%s', (_, db, expected) => {
    expect(kinds(shownBy(db, 0.3))).toEqual(expected);
  });

  it('say nothing of a hand until all three were struck', () => {
    const some = answered(
      asked,
      reportedBy(
        kit,
        struckAsAsked(asked.asked.slice(0, 2), () => -20, 1),
        1,
      ).hits,
    );
    expect(heightsShown(some, settings)[0].heights).toBeUndefined();
    expect(rigWithHeights(rig, heightsShown(some, settings))).toEqual(rig);
  });

  it('stay in the rig by hand', () => {
    const { heights } = rigWithHeights(rig, [shownBy(levels, 0)]).surfaces[0];
    expect(heights?.R?.full.db).toBeCloseTo(-4, 0);
    expect(heights?.L).toBeUndefined();
  });

  it('advice is words with a number', () => {
    expect(heightAdvice({ kind: 'overlap', lower: 'low', higher: 'half', share: 0.25 })).toBe(
      'Low and half run into each other: 25 % of pairs read the wrong way round. Strike them again farther apart, or choose a straighter curve.',
    );
  });
});

describe('the softest stroke that arrives', () => {
  const fading = (from: number) =>
    Array.from({ length: 12 }, (_, n) => hit(500 * n, Math.max(5, from - 4 * n)));

  it('sets the threshold', () => {
    const state = answered(softestAsked(rig), fading(40));
    expect(rigWithThresholds(rig, state).surfaces[0].thresholdVelocity).toBe(5);
  });

  it('not where no stroke was soft', () => {
    const state = answered(softestAsked(rig), fading(100));
    expect(rigWithThresholds(rig, state)).toEqual(rig);
  });
});
