import { draftFrom, keptDraft, noteDraftId } from '../sessions/draft';
import { alsoKnownAs, knownFrom } from '../sessions/owner';
import { playerLabels } from '../sessions/player-code';
import { TEACHER, TEACHER_NAME } from '../sessions/teacher';
import type { Take } from '../sessions/types';
import type { Effects } from '../state/dispatcher';
import type { Filed } from '../state/library';
import type { Context } from './context';
import { readableTake } from './readable';

/** Whoever shows what was moved. */
interface Shown {
  readonly refresh: () => Promise<void>;
  /** @returns false where a take is being played: then the turn stays */
  readonly turnTo: (playerId: string) => Promise<boolean>;
  readonly show: (take: Take) => void;
}

/** Whose a take or a week sheet is, when a person says so. */
export function filingEffects(
  { state, dispatch, store, attempt }: Context,
  { refresh, turnTo, show }: Shown,
) {
  const nameOf = (playerId: string): string => {
    if (playerId === TEACHER) return TEACHER_NAME;
    const player = state().library.players.find(({ id }) => id === playerId);
    return player === undefined ? '' : (playerLabels(state().library.players).get(playerId) ?? '');
  };

  async function give(what: Filed['kind'], id: string, playerId: string): Promise<void> {
    const whose = nameOf(playerId);
    if (what === 'take') await giveTakes([id], playerId);
    else await giveSheet(id, playerId);
    dispatch({ kind: 'filed', ids: [id], playerId });
    await refresh();
    dispatch({ kind: 'message', message: `The ${what} is ${whose}’s now.` });
  }

  /** With a take goes the note on it that is begun, for them. */
  async function giveTakes(ids: readonly string[], playerId: string): Promise<void> {
    const player = state().library.players.find(({ id }) => id === playerId);
    await store().give(ids, playerId);
    const changedAt = new Date().toISOString();
    for (const id of ids) {
      await store().alter('notes', noteDraftId(id), (kept) => {
        const draft = draftFrom(kept)?.draft;
        if (draft?.of !== 'note') return kept;
        return keptDraft({ playerId, draft: { ...draft, student: player?.name ?? '' } }, changedAt);
      });
    }
  }

  const giveSheet = (id: string, playerId: string): Promise<void> => {
    const changedAt = new Date().toISOString();
    return store().alter('sheets', id, (kept) => ({ ...kept, playerId, changedAt }));
  };

  async function fileWith(ids: readonly string[], playerId: string): Promise<void> {
    const filed = state().library.files.flatMap((file) => file.filed ?? []);
    const wanted = filed.filter(({ id }) => ids.includes(id));
    const takeIds = wanted.flatMap(({ kind, id }) => (kind === 'take' ? [id] : []));
    await giveTakes(takeIds, playerId);
    const changedAt = new Date().toISOString();
    for (const { kind, id } of wanted) {
      if (kind === 'week sheet')
        await store().alter('sheets', id, (kept) => ({ ...kept, playerId, changedAt }));
    }
    await remember(
      wanted.filter((one) => one.playerId === ''),
      playerId,
    );
    dispatch({ kind: 'filed', ids, playerId });
    await refresh();
  }

  /** Whoever was asked once whose such files are is not asked again. */
  async function remember(asked: readonly Filed[], playerId: string): Promise<void> {
    const changedAt = new Date().toISOString();
    for (const { named } of asked) {
      const as = knownFrom({ player: named.name, playerId: named.id });
      await store().alter('players', playerId, (player) => {
        const known = alsoKnownAs(player, as);
        return known === player ? player : { ...known, changedAt };
      });
    }
  }

  async function openTheirs(id: string, playerId: string): Promise<void> {
    const take = await readableTake(store(), id);
    if ((await turnTo(playerId)) && take !== undefined) show(take);
  }

  const on = {
    give: ({ what, id, playerId }) => attempt(() => give(what, id, playerId)),
    'file with': ({ ids, playerId }) => attempt(() => fileWith(ids, playerId)),
    'open theirs': ({ id, playerId }) => attempt(() => openTheirs(id, playerId)),
  } satisfies Effects['on'];
  return { on };
}
