/**
 * The 40 international drum rudiments (adopted 1984), in their published order. Right lead; the source of each row
 * stands in it, and no row has been checked against the printed sheet.
 */

/** A rudiment that single strokes over MIDI can show. */
export interface MeasuredRudiment {
  readonly kind: 'measured';
  /** 1–40, as published. */
  readonly number: number;
  readonly name: string;
  readonly family: RudimentFamily;
  /** Sticking text, spaces between beats, as long as it takes to come round: both halves where it alternates. */
  readonly sticking: string;
  readonly partialsPerBeat: number;
  /** Beats of the bar it is written in; a shorter sticking is repeated, a longer one has its bars parted by `|`. */
  readonly beatsPerBar: number;
  /** Whether its second half is the first with the hands changed; the others keep their lead. */
  readonly lead: 'alternates' | 'stays';
  /** Among those most drummers play every week (common practice, from memory). */
  readonly weekly: boolean;
  readonly source: string;
}

/** A rudiment that MIDI can't show, and why. */
interface UnmeasuredRudiment {
  readonly kind: 'unmeasured';
  readonly number: number;
  readonly name: string;
  readonly family: RudimentFamily;
  readonly weekly: boolean;
  readonly reason: string;
  readonly source: string;
}

export type Rudiment = MeasuredRudiment | UnmeasuredRudiment;
type RudimentFamily = 'roll' | 'paradiddle' | 'flam' | 'drag';

const MEMORY = 'common practice, from memory';
const DRUM_HISTORY = 'a page on drumming history';

const WEEKLY: ReadonlySet<number> = new Set([1, 6, 7, 8, 9, 10, 16, 17, 18, 19, 20, 21, 22, 28, 31]);

/** All forty; number 4 says why it has no sticking. */
export const rudiments: readonly Rudiment[] = [
  alternating(
    1,
    'Single stroke roll',
    4,
    4,
    'rlrl',
    `second-hand: alternating, of any length; 16ths are ours`,
  ),
  staying(2, 'Single stroke four', 3, 4, 'rlr l--'),
  alternating(3, 'Single stroke seven', 6, 4, 'rlrlrl r----- lrlrlr l-----'),
  {
    kind: 'unmeasured',
    number: 4,
    name: 'Multiple bounce roll',
    family: 'roll',
    weekly: false,
    reason:
      'a pad sends one note for each stroke it can tell apart, and a pressed stick bounces faster than that: MIDI has neither the number of bounces nor how even they are',
    source: `${MEMORY}: alternating hands, unmeasured`,
  },
  alternating(5, 'Triple stroke roll', 3, 4, 'rrr lll'),
  alternating(6, 'Double stroke open roll', 8, 4, 'rrllrrll'),
  alternating(7, 'Five stroke roll', 8, 4, 'rrllR--- llrrL---'),
  staying(8, 'Six stroke roll', 8, 4, 'R-llrrL-'),
  staying(9, 'Seven stroke roll', 8, 4, 'rrllrrL-'),
  alternating(10, 'Nine stroke roll', 8, 4, 'rrllrrll R------- llrrllrr L-------'),
  staying(11, 'Ten stroke roll', 8, 4, 'rrllrrll R---L---'),
  staying(12, 'Eleven stroke roll', 8, 4, 'rrllrrll rrL-----'),
  alternating(13, 'Thirteen stroke roll', 8, 4, 'rrllrrll rrllR--- llrrllrr llrrL---'),
  staying(14, 'Fifteen stroke roll', 8, 4, 'rrllrrll rrllrrL-'),
  alternating(15, 'Seventeen stroke roll', 8, 3, 'rrllrrll rrllrrll R------- | llrrllrr llrrllrr L-------'),
  alternating(
    16,
    'Single paradiddle',
    4,
    4,
    'Rlrr Lrll',
    `hands: an encyclopaedia and two pages; accent: ${MEMORY}`,
  ),
  alternating(17, 'Double paradiddle', 6, 4, 'Rlrlrr Lrlrll'),
  alternating(18, 'Triple paradiddle', 4, 4, 'Rlrl rlrr Lrlr lrll'),
  staying(
    19,
    'Single paradiddle-diddle',
    6,
    4,
    'Rlrrll',
    'a percussion teacher’s page: it keeps its lead, and is printed once for each',
  ),
  alternating(20, 'Flam', 2, 4, '{l}r{r}l'),
  alternating(21, 'Flam accent', 3, 4, '{l}Rlr {r}Lrl'),
  alternating(22, 'Flam tap', 4, 4, '{l}Rr{r}Ll'),
  alternating(23, 'Flamacue', 4, 4, '{l}rLrl {l}r--- {r}lRlr {r}l---'),
  alternating(24, 'Flam paradiddle', 4, 4, '{l}Rlrr {r}Lrll'),
  alternating(
    25,
    'Single flammed mill',
    4,
    4,
    '{l}Rrlr {r}Llrl',
    `${DRUM_HISTORY}: an inverted paradiddle with a flam, like flam taps`,
  ),
  alternating(
    26,
    'Flam paradiddle-diddle',
    6,
    4,
    '{l}Rlrrll {r}Lrllrr',
    `a percussion teacher’s page: it alternates; letters: ${MEMORY}`,
  ),
  staying(
    27,
    'Pataflafla',
    4,
    4,
    '{l}Rlr{r}L',
    `${DRUM_HISTORY}: flam, tap, tap, flam; letters and accents on the flams: ${MEMORY}`,
  ),
  staying(
    28,
    'Swiss army triplet',
    3,
    4,
    '{l}Rrl',
    `${DRUM_HISTORY}: right, right, left; accent on the flam: ${MEMORY}`,
  ),
  alternating(29, 'Inverted flam tap', 4, 4, '{l}Rl{r}Lr', `accents on the flams: ${MEMORY}`),
  alternating(30, 'Flam drag', 6, 4, '{l}R-llr- {r}L-rrl-'),
  alternating(31, 'Drag', 2, 4, '{ll}r{rr}l', 'second-hand: a small double before a louder single'),
  alternating(
    32,
    'Single drag tap',
    2,
    4,
    '{ll}rL {rr}lR',
    'second-hand, a teacher’s page: the accent is on the single stroke',
  ),
  alternating(33, 'Double drag tap', 3, 4, '{ll}r{ll}rL {rr}l{rr}lR'),
  staying(34, 'Lesson 25', 4, 4, '{ll}rlR-', `${MEMORY}; a lesson 25 of 1869: ${DRUM_HISTORY}`),
  alternating(35, 'Single dragadiddle', 8, 4, 'Rrl-r-r- Llr-l-l-'),
  alternating(
    36,
    'Drag paradiddle #1',
    6,
    4,
    'R-{ll}rlrr L-{rr}lrll',
    'second-hand: a stroke, then a drag of the same hand into a paradiddle, in 3/8',
  ),
  alternating(37, 'Drag paradiddle #2', 4, 4, 'R-{ll}r- {ll}rlrr L-{rr}l- {rr}lrll'),
  alternating(
    38,
    'Single ratamacue',
    6,
    4,
    '{ll}rlrL-- {rr}lrlR--',
    `second-hand: rhythm and last accent; letters: ${MEMORY}`,
  ),
  alternating(39, 'Double ratamacue', 6, 3, '{ll}r--{ll}rlr L--{rr}l-- {rr}lrlR--'),
  alternating(40, 'Triple ratamacue', 6, 4, '{ll}r--{ll}r-- {ll}rlrL-- {rr}l--{rr}l-- {rr}lrlR--'),
];

type Columns = readonly [
  number: number,
  name: string,
  partialsPerBeat: number,
  beatsPerBar: number,
  sticking: string,
  source?: string,
];

function alternating(...columns: Columns): MeasuredRudiment {
  return measured('alternates', columns);
}

function staying(...columns: Columns): MeasuredRudiment {
  return measured('stays', columns);
}

function measured(lead: MeasuredRudiment['lead'], columns: Columns): MeasuredRudiment {
  const [number, name, partialsPerBeat, beatsPerBar, sticking, source = MEMORY] = columns;
  return {
    kind: 'measured',
    number,
    name,
    family: familyOf(number),
    sticking,
    partialsPerBeat,
    beatsPerBar,
    lead,
    weekly: WEEKLY.has(number),
    source,
  };
}

function familyOf(number: number): RudimentFamily {
  if (number < 16) return 'roll';
  if (number < 20) return 'paradiddle';
  return number < 31 ? 'flam' : 'drag';
}
