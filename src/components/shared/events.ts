import type { Commands } from '../../state/commands';

/**
 * Sends a command up: the only way an element says anything to the page. Crosses shadow roots and bubbles to `main.ts`.
 * Native names that bubble by themselves (`input`, `change`) are never used.
 */
export function tell<Name extends keyof Commands>(
  from: HTMLElement,
  name: Name,
  ...[detail]: Commands[Name] extends undefined ? [] : [detail: Commands[Name]]
): void {
  from.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
}

/** Tells the element that holds this one, and no other. */
export function tellParent<Detail>(from: HTMLElement, name: string, detail: Detail): void {
  from.dispatchEvent(new CustomEvent(name, { detail }));
}
