import { describe, expect, it } from 'vitest';
import { phraseNamed } from '../../src/exercises/phrase';
import { newItem, weakestItem } from '../../src/insight/today/items';
import type { TodayFacts } from '../../src/insight/today/types';
import { modelTake } from '../../src/model/model-player';
import { newPlayer } from '../../src/sessions/player';
import { gradeTake } from '../../src/take/grade-take';
import type { Action } from '../../src/state/actions';
import { reduce } from '../../src/state/reducer';
import { limitsWords } from '../../src/state/selectors/library';
import { firstState, type State } from '../../src/state/state';

const NOW = '2026-03-02T18:00:00.000Z';
const right = newPlayer('r', 'Ray', NOW);
const left = { ...newPlayer('l', 'Lou', NOW), lead: 'L', limits: 'first year' } as const;
const after = (state: State, ...actions: readonly Action[]): State => actions.reduce(reduce, state);
const turn = (playerId: string): Action => ({
  kind: 'library',
  change: { players: [right, left], playerId },
});
const firstHand = ({ phrase }: State): string => phrase.bars[0].sticking[0].toUpperCase();

describe('a player who leads with the left', () => {
  const lous = after(firstState, turn('r'), turn('l'));

  it('meets what the app brings along led by it, and the next player by theirs', () => {
    expect([lous.phrase.title, firstHand(lous)]).toEqual(['Single paradiddle, accent walk, left lead', 'L']);
    const rays = after(lous, turn('r'));
    expect([rays.phrase.title, firstHand(rays)]).toEqual(['Single paradiddle, accent walk', 'R']);
  });

  it('is given rudiments led by it, and what is made of them', () => {
    const paradiddle = after(lous, { kind: 'phrase', name: 'Double paradiddle' });
    expect([firstHand(paradiddle), paradiddle.build.lead]).toEqual(['L', 'left']);
    const walked = after(paradiddle, { kind: 'build', change: { rule: 'accent walk' } });
    expect(firstHand(walked)).toBe('L');
    expect(firstHand(after(firstState, turn('r'), { kind: 'phrase', name: 'Double paradiddle' }))).toBe('R');
  });

  it('begins with it on Today, whatever is new to them', () => {
    const facts: TodayFacts = {
      takes: [],
      nowMs: Date.parse(NOW),
      eastMinutes: 0,
      lead: 'L',
      week: [],
      surfaces: [],
    };
    for (const { opening } of [weakestItem(facts), newItem(facts)]) {
      if (opening?.kind !== 'phrase') throw new Error('no phrase');
      expect(opening.phrase.bars[0].sticking[0].toUpperCase()).toBe('L');
    }
    expect(newItem(facts).title).toBe('Single paradiddle, rotations, left lead, 72 bpm');
  });

  it('keeps a phrase of their own as it is', () => {
    const typed = after(firstState, turn('r'), { kind: 'type phrase', text: 'RllrRllrRllrRllr' }, turn('l'));
    expect(firstHand(typed)).toBe('R');
  });
});

describe('a player’s limits', () => {
  const lous = after(firstState, turn('l'));
  const { take } = modelTake({ phrase: phraseNamed('Flam accent'), bpm: 84, seed: 5, cycles: 2 });
  const open = after(lous, { kind: 'reviewed', take, report: gradeTake(take) });

  it('are those of what Today has them play, of a take played again and of a new week sheet', () => {
    const other = after(lous, { kind: 'limits', limits: 'recital' });
    const { phrase } = take;
    expect(after(other, { kind: 'play phrase', phrase, name: null, bpm: 80 }).limits).toBe('first year');
    expect(after(other, { kind: 'take at hand', take }).limits).toBe('first year');
    const sheet = after(other, { kind: 'new sheet', id: 's', dateMs: 0 }).library.draft;
    expect(sheet?.limits).toBe('first year');
  });

  it('are said on every page, and the take’s own in Review', () => {
    expect(limitsWords(firstState)).toBe('Limits: working.');
    expect(limitsWords(lous)).toBe('Limits: first year, Lou’s.');
    expect(limitsWords(after(lous, { kind: 'limits', limits: 'recital' }))).toBe(
      'Limits: recital, as chosen; Lou’s are first year.',
    );
    expect(limitsWords(open)).toBe('Limits: working, the take’s; Lou’s are first year.');
  });
});
