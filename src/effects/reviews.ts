import type { On } from '../state/commands';
import { guessesFrom } from '../state/guess-first';
import { nextBlind } from '../insight/telling-apart';
import { heardTake } from '../state/sounded-take';
import type { Desk } from './page-effects';
import type { Hearing } from './hearing';
import { saveFile } from './save-file';

/** What Review keeps and asks for beside its takes. */
interface ReviewDesk {
  /** Shows what was kept: whether to guess first, and how often it was right. */
  open(): Promise<void>;
}

const KEPT = 'guesses';

export function reviewDesk({ say, store }: Desk): ReviewDesk {
  return {
    async open() {
      const guesses = guessesFrom(await store().kept(KEPT));
      if (guesses !== undefined) say({ kind: 'review', said: { kind: 'guesses', guesses } });
    },
  };
}

export function reviewWires(on: On, { sitting, say, store, attempt }: Desk, hear: Hearing): void {
  on('review', (said) => {
    const before = sitting().reviewing.guesses;
    say({ kind: 'review', said });
    if (said.kind === 'stop listening') hear.stop();
    const { guesses } = sitting().reviewing;
    if (guesses !== before) attempt(() => store().keep(KEPT, guesses));
  });
  on('next-step', () => say({ kind: 'next step' }));
  on('hear-bars', (choice) => {
    const { reviewed } = sitting();
    if (reviewed !== null) hear.sound(() => heardTake(reviewed, choice));
  });
  const soundBlind = (): void => {
    const { reviewed, reviewing } = sitting();
    const bar = reviewing.listening === null ? undefined : nextBlind(reviewing.listening);
    if (reviewed === null || bar === undefined) hear.stop();
    else {
      const from = bar.take === 0 ? reviewed : (reviewing.beside ?? reviewed);
      hear.sound(() => heardTake(from, { bars: [bar.bar], hand: 'both', speed: 'full' }));
    }
  };
  on('listen-blind', ({ of }) => {
    const [seed] = crypto.getRandomValues(new Uint32Array(1));
    say({ kind: 'review', said: { kind: 'listen', of, seed } });
    soundBlind();
  });
  on('blind-answer', ({ answer }) => {
    say({ kind: 'review', said: { kind: 'blind answer', answer } });
    soundBlind();
  });
  on('blind-again', soundBlind);
  on('save-file', ({ name, blob }) => saveFile(name, blob));
}
