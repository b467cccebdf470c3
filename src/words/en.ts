import { courseSentences } from './course';
import { findingSentences, type Finding } from './findings';
import { said, type Sayings, type Sentences } from './saying';
import { percent, short } from './numbers';

/** What of the rig stands in the way: false notes, as a share of the strokes, or surfaces at their loudest. */
export type RigFault =
  | { readonly kind: 'echoes' | 'forerunners' | 'crosstalk'; readonly percent: number }
  | { readonly kind: 'clipping'; readonly surfaces: readonly string[] };

const findings: Sentences<typeof findingSentences> = findingSentences;

/** Every sentence of a report, by its key: what it says of its arguments, in English. */
const sentences = {
  ...courseSentences,
  ...findings,
  'rig first': ({ faults, then }: { readonly faults: readonly RigFault[]; readonly then: Finding }) =>
    `See to the rig first: ${faults.map(rigWords).join(', ')}; then ${said(findings, then, (text) => text)}`,
  'does not fit': ({ why, tempoBpm, paired }: Misfit) =>
    `The take does not fit its grid, so it has no grade: ${misfitWords(why, tempoBpm, paired)}.`,
} as const;

interface Misfit {
  readonly why: 'subdivision' | 'tempo' | 'swung' | 'rig' | 'unpaired';
  readonly tempoBpm?: number;
  /** Share that must find its partner. */
  readonly paired: number;
}

/** A sentence by its key, with its arguments: what a report carries, and another language could say. */
export type Saying = Sayings<typeof sentences>;

/** Sayings as text. */
export function english(sayings: readonly Saying[]): string {
  const table: Sentences<typeof sentences> = sentences;
  return sayings.map((saying) => said(table, saying)).join(' ');
}

function rigWords(fault: RigFault): string {
  if (fault.kind === 'clipping') {
    return `accents on ${fault.surfaces.map((surface) => `"${surface}"`).join(' and ')} reach velocity 127, the most it can report`;
  }
  const what = {
    echoes: 'echoes after',
    forerunners: 'false notes before',
    crosstalk: 'crosstalk with',
  }[fault.kind];
  return `${what} ${percent(fault.percent)} of the strokes`;
}

function misfitWords(why: Misfit['why'], tempoBpm: number | undefined, paired: number): string {
  switch (why) {
    case 'subdivision':
      return `another subdivision or tempo was played${tempoBpm === undefined ? '' : `, at about ${Math.round(tempoBpm)} bpm`}`;
    case 'tempo':
      return tempoBpm === undefined
        ? 'another tempo was played'
        : `it was played at about ${Math.round(tempoBpm)} bpm`;
    case 'swung':
      return 'it was played swung, and the phrase is not written so';
    case 'rig':
      return 'over a quarter of the notes are false ones, echoes or strokes that came twice: see to the pad first';
    case 'unpaired':
      return `under ${short(100 * paired)} % of the slots or of the strokes found their partner`;
  }
}
