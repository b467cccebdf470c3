import { STEADY_MODEL } from '../insight/compare/side-by-side';
import type { On } from '../state/commands';
import { bundledNameOf } from '../state/reducer';
import { writeTake } from '../sessions/take';
import type { Take } from '../sessions/types';
import { asSwung } from '../take/meant-swing';
import { fetchBundled } from './bundled';
import type { Desk } from './page-effects';
import { reportOnce, toldOf } from './graded-once';
import { inTurn } from './queue';
import { saveFile } from './save-file';

/** Takes: kept, listed, opened in Review, out and in as files. */
export interface TakeDesk {
  /** Keeps what pages that died left of their takes. */
  recover(): Promise<void>;
  /** Grades a take that is kept and says so in the list. @returns its sentence, or why it has none */
  settle(take: Take): Promise<string>;
  /** Shows the takes that are kept, as they are now. */
  list(): Promise<void>;
  /** Opens a take in Review. */
  show(take: Take): void;
  /** Keeps a take as it is now, in place of one with its id. */
  put(take: Take): Promise<void>;
  /** Opens a take that is kept in Review, then says in the list what it came to. @throws InputError where it can't be graded */
  review(take: Take): Promise<void>;
  /** A bundled take, fetched where it must be. */
  bundled(name: string): Promise<Take>;
  /** A take by the id of a list: kept, bundled, or the one that is open. Undefined where it is gone. */
  find(id: string): Promise<Take | undefined>;
  download(take: Take): void;
  remove(id: string): Promise<void>;
}

/** @param list shows the takes as they are now */
export function takeDesk({ sitting, say, store, attempt }: Desk, list: () => Promise<void>): TakeDesk {
  async function describe(take: Take): Promise<string> {
    const { sentence, graded } = toldOf(take);
    await store().describe(take.id, sentence, graded);
    return sentence;
  }

  async function bundled(name: string): Promise<Take> {
    const take = sitting().bundled.find((one) => one.name === name)?.take ?? (await fetchBundled(name));
    say({ kind: 'bundled', name, take });
    return take;
  }

  async function settle(take: Take): Promise<string> {
    const sentence = await describe(take);
    await list();
    return sentence;
  }

  async function review(take: Take): Promise<void> {
    try {
      show(take);
    } finally {
      await settle(take);
    }
  }

  function show(take: Take): void {
    say({ kind: 'reviewed', take, report: reportOnce(take) });
  }

  return {
    bundled,
    list,
    settle,
    show,
    review,
    async put(take) {
      await store().put(take);
      await settle(take);
    },
    async recover() {
      const late = (take: Take): void => attempt(async () => void (await settle(take)));
      for (const take of await store().recover(late)) await describe(take);
    },
    async find(id) {
      const name = bundledNameOf(id);
      if (name !== undefined) return bundled(name);
      const open = sitting().reviewed?.take;
      return open?.id === id ? open : store().get(id);
    },
    download(take) {
      const stamp = take.recordedAt.slice(0, 16).replace(/[T:]/g, '-');
      saveFile(`${stamp}-${take.id.slice(0, 8)}.take.json`, writeTake(take));
    },
    async remove(id) {
      if (!window.confirm('Delete this take for good? A downloaded file is not touched.')) return;
      await store().delete(id);
      await list();
    },
  };
}

/** What Review may ask for. */
export function takeWires(on: On, { sitting, say, attempt }: Desk, takes: TakeDesk): void {
  function withFound(id: string, act: (take: Take) => void): void {
    attempt(async () => {
      const take = await takes.find(id);
      if (take !== undefined) act(take);
    });
  }
  on('download', ({ id }) => withFound(id, (take) => takes.download(take)));
  on('play-again', ({ id }) => withFound(id, (take) => say({ kind: 'again', take })));
  on('open-take', ({ id }) =>
    withFound(id, (take) => say({ kind: 'reviewed', take, report: reportOnce(take) })),
  );
  const beside = inTurn();
  on('beside', ({ id }) =>
    attempt(() =>
      beside(async () => {
        const { reviewed } = sitting();
        if (reviewed === null) return;
        const take = id === '' ? null : await besideTake(id, reviewed.take);
        // Another take may be open by now, and this one gone.
        if (take === undefined || sitting().reviewed !== reviewed) return;
        const other = take === null ? null : { take, report: reportOnce(take) };
        say({ kind: 'review', said: { kind: 'beside', beside: other } });
      }),
    ),
  );
  async function besideTake(id: string, open: Take): Promise<Take | undefined> {
    if (id !== STEADY_MODEL) return takes.find(id);
    const { steadyModelOf } = await import('../insight/compare/steady-model');
    return steadyModelOf(open);
  }
  on('meant-swing', () =>
    attempt(async () => {
      const { reviewed, keeping } = sitting();
      const swung = reviewed && asSwung(reviewed.take, reviewed.report);
      if (!swung) return;
      takes.show(swung);
      // A bundled take, or one of a file, stays what it is outside this page.
      if (keeping.takes.some(({ id }) => id === swung.id)) await takes.put(swung);
    }),
  );
  on('delete-take', ({ id }) => attempt(() => takes.remove(id)));
}
