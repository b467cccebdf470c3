import type { Action } from '../../state/actions';

/** The one event that elements of the page fire: an action, on its way to the dispatcher. */
export const ACTION = 'action';

/**
 * Sends an action up: the only way an element says anything to the page. Crosses shadow roots and bubbles to `main.ts`.
 */
export function fire(from: HTMLElement, action: Action): void {
  from.dispatchEvent(new CustomEvent(ACTION, { detail: action, bubbles: true, composed: true }));
}

/** To the element that holds this one, and no other. Native names that bubble by themselves (`input`, `change`) are never used. */
export function fireParent<Detail>(from: HTMLElement, name: string, detail: Detail): void {
  from.dispatchEvent(new CustomEvent(name, { detail }));
}

declare global {
  interface HTMLElementEventMap {
    [ACTION]: CustomEvent<Action>;
  }
}
