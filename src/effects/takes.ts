import { STEADY_MODEL } from '../insight/compare/side-by-side';
import { takeWithTempo } from '../insight/today/opening';
import { noteDraftId } from '../sessions/draft';
import { fileName } from '../sessions/file-name';
import { TEACHER } from '../sessions/teacher';
import { whoInFileName } from '../state/selectors/library';
import { writeTake } from '../sessions/take';
import { summaryOf } from '../sessions/take-record';
import type { Take } from '../sessions/types';
import { asSwung } from '../take/meant-swing';
import type { Effects } from '../state/dispatcher';
import { takeAsInput } from '../state/selectors/input';
import { bundledNameOf } from '../state/takes';
import { fetchBundled } from './bundled';
import type { Context } from './context';
import type { Reviewed } from '../take/reviewed';
import { describedTake, remember, reportOnce } from './graded-once';
import { queue } from './queue';
import { saveFile } from './save-file';

/**
 * Takes: kept, listed, opened in Review, out and in as files.
 * @param list shows the takes as they are now
 */
// eslint-disable-next-line max-lines-per-function -- one list of takes: whatever is done to one ends in it
export function takeEffects({ state, dispatch, store, attempt }: Context, list: () => Promise<void>) {
  const inOrder = queue();

  async function describe(take: Take): Promise<string> {
    const { sentence, graded } = describedTake(take);
    await store().describe(take.id, sentence, graded);
    return sentence;
  }

  /** A bundled take, fetched where it must be. */
  async function bundled(name: string): Promise<Take> {
    const take = state().bundled.find((one) => one.name === name)?.take ?? (await fetchBundled(name));
    dispatch({ kind: 'bundled take', name, take });
    return take;
  }

  /** Grades a take that is kept and says so in the list. @returns its sentence, or why it has none */
  async function settle(take: Take): Promise<string> {
    const sentence = await describe(take);
    await list();
    return sentence;
  }

  /** Opens a take that is kept in Review, then says in the list what it came to. @throws InputError where it can't be graded */
  async function review(take: Take): Promise<void> {
    try {
      show(take);
    } finally {
      await settle(take);
    }
  }

  function show(take: Take): void {
    dispatch({ kind: 'reviewed', take, report: reportOnce(take) });
  }

  /** A take by its id: kept, bundled, the one that is open, one that could not be kept. Undefined where it is gone. */
  async function find(id: string): Promise<Take | undefined> {
    const name = bundledNameOf(id);
    if (name !== undefined) return bundled(name);
    const { reviewed, unkept } = state();
    const open = reviewed?.take.id === id ? reviewed.take : undefined;
    return open ?? unkept.find(({ take }) => take.id === id)?.take ?? store().get(id);
  }

  function withFound(id: string, act: (take: Take) => void): void {
    attempt(async () => {
      const take = await find(id);
      if (take !== undefined) act(take);
    });
  }

  function download(take: Take): void {
    const { takes, playerId } = state().library;
    const isTheirs = takes.some(({ id }) => id === take.id);
    const who = isTheirs ? whoInFileName(state().library, playerId) : take.teacher === true ? TEACHER : '';
    const about = `${take.recordedAt.slice(11, 16)} ${take.id.slice(0, 8)}`;
    saveFile(
      fileName({ kind: 'take', who, day: take.recordedAt, about, ending: 'take.json' }),
      writeTake(take),
    );
  }

  async function remove(id: string): Promise<void> {
    if (!window.confirm('Delete this take for good? A downloaded file is not touched.')) return;
    await store().delete(id);
    await store().remove('notes', noteDraftId(id));
    await list();
  }

  async function setBeside(id: string): Promise<void> {
    const { reviewed } = state();
    if (reviewed === null) return;
    const take = id === '' ? null : await besideTake(id, reviewed.take);
    // Another take may be open by now, and this one gone.
    if (take === undefined || state().reviewed !== reviewed) return;
    const beside = take === null ? null : { take, report: reportOnce(take) };
    dispatch({ kind: 'beside', beside });
  }

  async function besideTake(id: string, open: Take): Promise<Take | undefined> {
    if (id !== STEADY_MODEL) return find(id);
    const { steadyModelOf } = await import('../insight/compare/steady-model');
    return steadyModelOf(open);
  }

  /** Keeps a take as it is now in place of the one with its id, where that is kept; it stays whose it is. */
  async function replace(take: Take): Promise<void> {
    const record = await store().record(take.id);
    if (record === undefined) return;
    const summary = { ...summaryOf(take), playerId: record.playerId };
    await store().putAll({ takes: [{ take, summary }] });
    await settle(take);
  }

  /** The open take is graded anew, its phrase swung as it was played. */
  async function swing(): Promise<void> {
    const { reviewed } = state();
    const swung = reviewed === null ? undefined : asSwung(reviewed.take, reviewed.report);
    if (swung === undefined) return;
    show(swung);
    // A bundled take, or one of a file, stays what it is outside this page.
    await replace(swung);
  }

  /** What leads is kept with the take: its report is the one it had. */
  async function keepFirst({ take, report }: Reviewed): Promise<void> {
    remember(take, report);
    await replace(take);
  }

  /** A bundled take that is chosen to play becomes the input once it is there. */
  async function fetchInput(name: string, input: string): Promise<void> {
    await bundled(name);
    dispatch({ kind: 'input', input });
  }

  const on = {
    'open take': ({ id }) => withFound(id, show),
    'play take': ({ id }) => withFound(id, (take) => dispatch({ kind: 'take at hand', take })),
    'play take at': ({ takeId, bpm }) =>
      withFound(takeId, (take) => dispatch({ kind: 'take at hand', take: takeWithTempo(take, bpm) })),
    'download take': ({ id }) => withFound(id, download),
    'delete take': ({ id }) => attempt(() => remove(id)),
    'set beside': ({ id }) => attempt(() => inOrder(() => setBeside(id))),
    'meant swing': () => attempt(swing),
    'choose first': () => {
      const { reviewed } = state();
      if (reviewed !== null) attempt(() => inOrder(() => keepFirst(reviewed)));
    },
    input: ({ input }) => {
      const name = bundledNameOf(input);
      if (name !== undefined && takeAsInput({ ...state(), input }) === undefined)
        attempt(() => fetchInput(name, input));
    },
  } satisfies Effects['on'];
  return {
    on,
    settle,
    review,
    show,
    /** Keeps what pages that died left of their takes. */
    async recover(): Promise<void> {
      const late = (take: Take): void => attempt(async () => void (await settle(take)));
      for (const take of await store().recover(late)) await describe(take);
    },
  };
}

/** What other areas ask of takes. */
export type Takes = ReturnType<typeof takeEffects>;
