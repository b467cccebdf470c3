import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { asWritten, performed, type Performance } from '../src/exercises/performance';
import { phraseFromText, phraseNamed } from '../src/exercises/phrase';
import type { Phrase } from '../src/exercises/types';
import { gradeTake } from '../src/take/grade-take';
import { modelTake, type ModelPlayer } from '../src/model/model-player';
import { writeTake } from '../src/sessions/take';
import type { Take } from '../src/sessions/types';

/**
 * Writes `recorded-sessions/`: model players' takes, each with one known fault, and the golden report beside each.
 * `npm run golden`; look at the diff before committing it.
 */
interface Session extends Omit<ModelPlayer, 'phrase' | 'notes' | 'id'> {
  readonly name: string;
  /** Its name on the page. */
  readonly words: string;
  /** A bundled phrase by its name, or one of its own. */
  readonly phrase: string | Phrase;
  /** True where there was no click: nothing then tells the downbeat or the tempo but the strokes. */
  readonly free?: boolean;
  /** How it is played, where not as written. */
  readonly performance?: Partial<Performance>;
  /** What was planted, in words. */
  readonly known: string;
}

const WALK = 'Single paradiddle, accent walk';
const ROTATIONS = 'Single paradiddle, rotations';

const sessions: readonly Session[] = [
  {
    name: 'steady',
    words: 'A steady take',
    phrase: WALK,
    bpm: 84,
    seed: 2101,
    known: 'a steady good take; nothing is planted',
  },
  {
    name: 'left-up-stroke-leaks',
    words: 'Left up stroke leaks',
    phrase: WALK,
    bpm: 84,
    seed: 2102,
    faults: [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }],
    known: 'in accent on 4 the left hand’s tap before its own accent is 6 dB louder',
  },
  {
    name: 'stick-not-stopped',
    words: 'Stick not stopped after its accent',
    phrase: WALK,
    bpm: 88,
    seed: 2103,
    faults: [{ kind: 'leak-after', hand: 'R', db: 6, variation: 'accent on 2' }],
    known:
      'in accent on 2 the right hand’s tap after its own accent is 6 dB louder: the stick is not stopped',
  },
  {
    name: 'left-spills',
    words: 'Left comes up with the right’s accent',
    phrase: WALK,
    bpm: 84,
    seed: 2104,
    faults: [{ kind: 'spill', hand: 'L', db: 6 }],
    known: 'the left hand’s taps beside the right hand’s accents are 6 dB louder',
  },
  {
    name: 'weak-second-of-double',
    words: 'Weak second note of the double',
    phrase: WALK,
    bpm: 92,
    seed: 2105,
    faults: [{ kind: 'fade', db: -6 }],
    known: 'the second note of every soft double is 6 dB softer than the first',
  },
  {
    name: 'right-three-db-louder',
    words: 'Right hand 3 dB louder',
    phrase: ROTATIONS,
    bpm: 84,
    seed: 2106,
    cycles: 10,
    accentDb: -7,
    tapDb: -22,
    faults: [{ kind: 'balance', hand: 'R', db: 3 }],
    known: 'the right hand is 3 dB louder in everything',
  },
  {
    name: 'left-late',
    words: 'Left hand late',
    phrase: ROTATIONS,
    bpm: 84,
    seed: 2107,
    faults: [{ kind: 'late', hand: 'L', ms: 18 }],
    known: 'the left hand is 18 ms late',
  },
  {
    name: 'rushed-seam',
    words: 'Rushed seam',
    phrase: WALK,
    bpm: 80,
    seed: 2108,
    faults: [{ kind: 'seam', ms: -22 }],
    known: 'the first stroke of every new variation is 22 ms early',
  },
  {
    name: 'lost-slot',
    words: 'A stroke lost, the pattern slipped',
    phrase: WALK,
    bpm: 84,
    seed: 2109,
    faults: [{ kind: 'slip', bar: 9, slot: 5, slots: 27 }],
    known: 'in bar 10 the sixth stroke is left out and all goes on one partial ahead, for 27 slots',
  },
  {
    name: 'echoing-trigger',
    words: 'Echoing trigger',
    phrase: WALK,
    bpm: 84,
    seed: 2110,
    faults: [{ kind: 'echo', share: 0.3, ratio: 0.2 }],
    known: 'the trigger echoes three strokes of ten, 55 ms later at a fifth of the velocity',
  },
  {
    name: 'two-pads-left-lead',
    words: 'Two pads, weak accents',
    phrase: 'Single paradiddle, accent walk, left lead',
    bpm: 76,
    seed: 2111,
    surfaces: 2,
    faults: [{ kind: 'accents', db: -8, variation: 'accent on 3, left lead' }],
    known: 'a pad for each hand; in accent on 3 the accents are 8 dB softer',
  },
  {
    name: 'over-feet',
    words: 'Over feet, left up stroke leaks',
    phrase: WALK,
    performance: { feet: 'K--- H---' },
    bpm: 84,
    seed: 2112,
    faults: [{ kind: 'leak-before', hand: 'L', db: 6, variation: 'accent on 4' }],
    known:
      'over bass drum on 1 and 3 and hi-hat on 2 and 4; in accent on 4 the left hand’s tap before its own accent is 6 dB louder',
  },
  {
    name: 'unisons-left-late',
    words: 'Both hands at once, left late',
    phrase: {
      ...phraseFromText('[RL]lrl [RL]rlr [RL]lrl [RL]rlr', {
        beatsPerBar: 4,
        partialsPerBeat: 4,
        cycles: 16,
      }),
      title: 'Unisons on the beat',
    },
    bpm: 84,
    seed: 2113,
    surfaces: 2,
    faults: [{ kind: 'late', hand: 'L', ms: 18 }],
    known: 'a pad for each hand, both struck together on every beat; the left hand is 18 ms late',
  },
  {
    name: 'accents-to-toms',
    words: 'Accents to toms, stick not stopped',
    phrase: WALK,
    performance: { voicing: 'accents to toms' },
    bpm: 84,
    seed: 2114,
    faults: [{ kind: 'leak-after', hand: 'R', db: 6, variation: 'accent on 2' }],
    known:
      'right accents on the floor tom, left ones on the high tom, taps on the snare; in accent on 2 the right hand’s tap after its own accent is 6 dB louder',
  },
  {
    name: 'call-and-response',
    words: 'Call and response, weak second note of the double',
    phrase: WALK,
    performance: { first: 'listen' },
    bpm: 84,
    seed: 2115,
    faults: [{ kind: 'fade', db: -6 }],
    known:
      'each bar is listened to and then played; the second note of every soft double is 6 dB softer than the first',
  },
  {
    name: 'uneven-flams',
    words: 'Uneven flams',
    phrase: 'Flam accent',
    bpm: 72,
    seed: 2116,
    cycles: 16,
    faults: [{ kind: 'flam-uneven', ms: 18 }],
    known: 'the grace notes lie 30 ms ahead of their strokes on average, but spread by 18 ms',
  },
  {
    name: 'free-time',
    words: 'In free time, getting faster',
    phrase: WALK,
    bpm: 84,
    ramp: [
      { bar: 0, bpm: 84 },
      { bar: 32, bpm: 92 },
    ],
    free: true,
    seed: 2117,
    faults: [{ kind: 'leak-before', hand: 'R', db: 6, variation: 'accent on 3' }],
    known:
      'no click: the tempo rises from 84 to 92 bpm; in accent on 3 the right hand’s tap before its own accent is 6 dB louder',
  },
];

const folder = 'recorded-sessions';
mkdirSync(folder, { recursive: true });
const index: { name: string; words: string; title: string; bpm: number; sentence: string }[] = [];
for (const { name, words, phrase, performance, known, free, ...player } of sessions) {
  const base = typeof phrase === 'string' ? phraseNamed(phrase) : phrase;
  const { take: made } = modelTake({
    ...player,
    phrase: performed(base, { ...asWritten, ...performance }),
    id: `recorded-${name}`,
    notes: `Computed by the seeded model player; nobody played it. Planted: ${known}.`,
  });
  const take: Take =
    free === true ? { ...made, click: 'none', downbeatMs: null, tempo: { bpm: player.bpm } } : made;
  const report = gradeTake(take);
  writeFileSync(join(folder, `${name}.take.json`), writeTake(take));
  writeFileSync(join(folder, `${name}.report.json`), `${JSON.stringify(report, undefined, 1)}\n`);
  index.push({ name, words, title: take.phrase.title, bpm: player.bpm, sentence: report.sentence });
  process.stdout.write(`${name}: ${report.sentence}\n`);
}

writeFileSync(join(folder, 'index.json'), `${JSON.stringify(index, undefined, 2)}\n`);
