import { describe, expect, it } from 'vitest';
import { alsoKnownAs, knownFrom, ownerOfSheet, ownerOfTake } from '../../src/sessions/owner';
import { newPlayer, type Player } from '../../src/sessions/player';

const NOW = '2026-03-02T18:00:00.000Z';
const ab = newPlayer('ab', 'A. B.', NOW);
const cd = newPlayer('cd', 'C. D.', NOW);
const here = { players: [ab, cd], sheets: [{ id: 'week-9', playerId: 'ab' }] };
const back = { player: 'Me', playerId: 'my-own-browser' };

describe('a take that comes from elsewhere', () => {
  it('is its week sheet’s player’s, whatever it calls itself and whoever has the turn', () => {
    expect(ownerOfTake({ ...back, sheetId: 'week-9' }, here)).toEqual({ playerId: 'ab', by: 'sheet' });
    expect(ownerOfTake({ player: 'C. D.', sheetId: 'week-9' }, here)?.playerId).toBe('ab');
  });

  it('is its player’s where that is one of this library', () => {
    expect(ownerOfTake({ player: '', playerId: 'cd', sheetId: 'week-9' }, here)).toEqual({
      playerId: 'cd',
      by: 'id',
    });
  });

  it('stays whose it is where it is here already: what was given away is not taken back', () => {
    expect(ownerOfTake({ player: '', playerId: 'cd' }, { ...here, before: 'ab' })).toEqual({
      playerId: 'ab',
      by: 'record',
    });
  });

  it('is the teacher’s where it says so, until somebody says otherwise', () => {
    const played = { player: '', playerId: 'cd', teacher: true } as const;
    expect(ownerOfTake(played, here)).toEqual({ playerId: 'teacher', by: 'teacher' });
    expect(ownerOfTake(played, { ...here, before: 'ab' })?.playerId).toBe('ab');
    expect(ownerOfTake({ player: 'C. D.' }, { ...here, before: 'teacher' })?.playerId).toBe('teacher');
  });

  it('goes by a name that one player alone has', () => {
    expect(ownerOfTake({ player: ' c. d. ' }, here)).toEqual({ playerId: 'cd', by: 'name' });
    const twins = { ...here, players: [...here.players, newPlayer('cd2', 'C. D.', NOW)] };
    expect(ownerOfTake({ player: 'C. D.' }, twins)).toBeUndefined();
  });

  it('is nobody’s where nothing tells, and theirs where there is nobody else', () => {
    expect(ownerOfTake({ player: '' }, here)).toBeUndefined();
    expect(ownerOfTake(back, here)).toBeUndefined();
    expect(ownerOfTake(back, { ...here, players: [cd] })).toEqual({ playerId: 'cd', by: 'only one' });
  });

  it('of a sheet whose player is gone is nobody’s', () => {
    expect(
      ownerOfTake({ player: '', sheetId: 'week-9' }, { ...here, players: [cd, newPlayer('e', 'E', NOW)] }),
    ).toBeUndefined();
  });
});

describe('what was said once', () => {
  const said = (player: Player, take: Parameters<typeof knownFrom>[0]) =>
    alsoKnownAs(player, knownFrom(take));

  it('is known from then on: by the id of the other library, else by the name', () => {
    const byId = { ...here, players: [said(ab, back), cd] };
    expect(ownerOfTake(back, byId)).toEqual({ playerId: 'ab', by: 'known' });
    // Another player of another browser may be called the same.
    expect(ownerOfTake({ player: 'Me', playerId: 'somebody-else’s' }, byId)).toBeUndefined();
    const byName = { ...here, players: [ab, said(cd, { player: 'Dee' })] };
    expect(ownerOfTake({ player: 'dee' }, byName)).toEqual({ playerId: 'cd', by: 'known' });
  });

  it('is kept once, and of a take that names nobody nothing is', () => {
    const once = said(ab, back);
    expect(said(once, back)).toBe(once);
    expect(said(ab, { player: '' })).toBe(ab);
  });
});

describe('a week sheet that comes', () => {
  it('is whose it is where it is here, else goes by the student’s name', () => {
    expect(ownerOfSheet({ id: 'week-9', student: 'C. D.' }, here)).toEqual({ playerId: 'ab', by: 'record' });
    expect(ownerOfSheet({ id: 'week-10', student: 'C. D.' }, here)).toEqual({ playerId: 'cd', by: 'name' });
    expect(ownerOfSheet({ id: 'week-10', student: '' }, here)).toBeUndefined();
  });
});
