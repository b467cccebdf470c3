import { InputError } from '../errors';
import { levelDb, type Db } from '../units';
import { partialsOfBeats } from './phrase';
import type { Phrase } from './types';

const FORTE_DB: Db = levelDb(96);
const PIANO_DB: Db = levelDb(32);
const MEZZO_FORTE_DB: Db = levelDb(64);

/**
 * How far under f a marking lies, dB. The Standard MIDI File specification's table of dynamics gives p, mf and f as
 * velocities 32, 64 and 96; mp lies half-way in level between p and mf.
 */
const shiftOf: Readonly<Record<string, Db>> = {
  p: PIANO_DB - FORTE_DB,
  mp: (PIANO_DB + MEZZO_FORTE_DB) / 2 - FORTE_DB,
  mf: MEZZO_FORTE_DB - FORTE_DB,
  f: 0,
};

/** The shift of a place in a bar, dB re f; 0 in a bar without a dyn line. */
type Dynamics = (beat: number) => Db;

interface Token {
  readonly text: string;
  /** Column in the line, from 1. */
  readonly column: number;
}

/**
 * The dyn line of a bar: tokens one a beat, or fewer, with white space between. `p mp mf f` hold until the next token
 * (the last one to the bar's end); `<` and `>` go on from the level before them, straight in dB, from their own beat to
 * the next level given: in this bar, or from the bar's end the one that the next bar begins with ({@link levelAfter}).
 * @param index bar of the cycle
 * @returns the shift by place in the bar, in beats from 0 (2.5 is half-way through the third)
 * @throws InputError at `bars[index].dyn` with the column
 * @example of `p < < f` the shift is that of p (−19.1 dB) at 0 and at 1, −9.5 dB at 2 and 0 dB from 3 on
 * Source: SMF 1.0's table of dynamics under the level law; the ramp is common practice, no source.
 */
export function dynamicsOf(phrase: Phrase, index: number): Dynamics {
  const { dyn } = phrase.bars[index];
  if (dyn === undefined) return () => 0;
  const beats = partialsOfBeats(phrase, phrase.bars[index]).length;
  const fail = (column: number, rule: string, value?: string): InputError =>
    new InputError(`bars[${index}].dyn: line 1, column ${column}`, rule, value);
  const tokens = tokensOf(dyn, fail);
  if (tokens.length > beats) {
    throw fail(tokens[beats].column, `must have at most one token a beat, ${beats} in this bar`);
  }
  /** Shifts at the start of each beat, and whether the shift moves from there to the next. */
  const shifts: Db[] = [];
  const moves: boolean[] = [];
  for (let at = 0; at < tokens.length; at += 1) {
    const { text, column } = tokens[at];
    if (Object.hasOwn(shiftOf, text)) {
      shifts.push(shiftOf[text]);
      moves.push(false);
      continue;
    }
    const from = shifts[at - 1];
    let end = at;
    while (end < tokens.length && tokens[end].text === text) end += 1;
    const isRightWay = (to: Db): boolean => (text === '<' ? to > from : to < from);
    const target = end < tokens.length ? shiftOf[tokens[end].text] : levelAfter(phrase, index, isRightWay);
    if (end < tokens.length && target === undefined) {
      throw fail(column, `${text} must lead to a level: p, mp, mf or f`);
    }
    if (target === undefined || !isRightWay(target)) {
      throw fail(column, `${text} must lead to a ${text === '<' ? 'louder' : 'softer'} level`);
    }
    const lastBeat = end < tokens.length ? end : beats;
    for (let beat = at; beat < lastBeat; beat += 1) {
      shifts.push(from + ((beat - at) / (lastBeat - at)) * (target - from));
      moves.push(true);
    }
    at = end - 1;
    if (end === tokens.length) shifts.push(target);
  }
  return (place) => {
    const beat = Math.min(Math.floor(place), shifts.length - 1);
    if (moves[beat] !== true) return shifts[beat];
    return shifts[beat] + (place - beat) * (shifts[beat + 1] - shifts[beat]);
  };
}

function tokensOf(dyn: string, fail: (column: number, rule: string, value?: string) => InputError): Token[] {
  const tokens = [...dyn.matchAll(/\S+/g)].map(({ 0: text, index }) => ({ text, column: index + 1 }));
  const wrong = tokens.find(({ text }) => !Object.hasOwn(shiftOf, text) && text !== '<' && text !== '>');
  if (wrong !== undefined) throw fail(wrong.column, 'must be p, mp, mf, f, < or >', wrong.text);
  if (tokens.length === 0 || !Object.hasOwn(shiftOf, tokens[0].text)) {
    throw fail(tokens[0]?.column ?? 1, 'must begin with a level: p, mp, mf or f', tokens[0]?.text);
  }
  return tokens;
}

/**
 * The level a hairpin at the bar's end leads to: that with which the next bar begins (f where it has no dyn line), or
 * where that is the wrong way, the next dyn line of the cycle that begins the right way.
 */
function levelAfter({ bars }: Phrase, index: number, isRightWay: (to: Db) => boolean): Db | undefined {
  for (let step = 1; step <= bars.length; step += 1) {
    const { dyn } = bars[(index + step) % bars.length];
    if (dyn === undefined && step > 1) continue;
    const to = dyn === undefined ? 0 : shiftOf[dyn.trim().split(/\s+/)[0]];
    if (to !== undefined && isRightWay(to)) return to;
  }
  return undefined;
}
