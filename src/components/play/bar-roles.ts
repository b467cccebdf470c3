import { css, html, nothing } from 'lit';
import type { GridBar } from '../../exercises/types';
import { percent } from '../shared/numbers';

/** Styles of what a bar asks for where it isn't to be played, and of its dynamics. */
export const barRoleStyles = css`
  .call {
    position: absolute;
    inset: 0;
    display: grid;
    place-content: center;
    text-align: center;
    pointer-events: none;
  }
  .call b {
    font-size: clamp(44px, 7vw, 84px);
    line-height: 1.1;
  }
  .call span {
    color: var(--quiet);
    font-size: 22px;
  }
  .not-played .letters,
  .not-played .marks {
    color: var(--quiet);
  }
  .waits .rule,
  .waits .height {
    visibility: hidden;
  }
  .with-dyn {
    margin-top: 22px;
  }
  .dyn {
    position: absolute;
    bottom: 100%;
    padding-left: 6px;
    color: var(--ink);
    font-size: 17px;
    font-style: italic;
    font-weight: 600;
    line-height: 22px;
  }
`;

export const isPlayed = ({ role }: GridBar): boolean => role === 'play';

const calls: Readonly<Record<Exclude<GridBar['role'], 'play'>, readonly [string, string]>> = {
  listen: ['Listen', 'it sounds; play nothing'],
  say: ['Count aloud', 'the click goes on; play nothing'],
};

/** What to do in a bar that isn't to be played, large and in plain words, for the eye. */
export function roleCall({ role }: GridBar) {
  if (role === 'play') return nothing;
  const [what, how] = calls[role];
  return html`<p class="call"><b>${what}</b><span>${how}</span></p>`;
}

/** The same for the ear, and "Play" too; nothing in a phrase that is played throughout. */
export function roleSpoken({ role }: GridBar, bars: readonly GridBar[]) {
  if (bars.every(isPlayed)) return nothing;
  return html`<p class="visually-hidden" role="status">${role === 'play' ? 'Play' : calls[role][0]}</p>`;
}

/** The word before the next bar's sticking: what is asked for there, where that changes. */
export function roleNext(next: GridBar, now: GridBar): string {
  if (next.role === now.role) return 'next';
  return next.role === 'play' ? 'play' : next.role;
}

const dynWords: Readonly<Record<string, string>> = { '<': 'cresc.', '>': 'dim.' };

export const hasDyn = (bars: readonly GridBar[]): boolean => bars.some(({ dyn }) => dyn !== undefined);

/** The dynamics over their beats; a hairpin is said once, where it begins. */
export function dynRow({ dyn, beats }: GridBar) {
  if (dyn === undefined) return nothing;
  const tokens = dyn.trim().split(/\s+/);
  return tokens.map((token, beat) =>
    token === tokens[beat - 1]
      ? nothing
      : html`<span class="dyn" style="left:${percent(beat / beats)}"
          >${Object.hasOwn(dynWords, token) ? dynWords[token] : token}</span
        >`,
  );
}
