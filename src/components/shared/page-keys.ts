import type { ReactiveController, ReactiveControllerHost } from 'lit';

/**
 * Keys pressed anywhere on the page while an element is on it. Keys with Alt, Control or Meta are the browser's, and
 * what is typed into a field is its text: neither is told.
 */
export class PageKeys implements ReactiveController {
  readonly #listener: (event: KeyboardEvent) => void;

  constructor(host: ReactiveControllerHost, listener: (event: KeyboardEvent) => void) {
    this.#listener = listener;
    host.addController(this);
  }

  readonly #pressed = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey || isTyped(event.composedPath()[0])) return;
    this.#listener(event);
  };

  hostConnected(): void {
    window.addEventListener('keydown', this.#pressed);
  }

  hostDisconnected(): void {
    window.removeEventListener('keydown', this.#pressed);
  }
}

const isTyped = (at: EventTarget | undefined): boolean =>
  at instanceof Element &&
  at.closest('input:not([type="checkbox"], [type="radio"]), textarea, select') !== null;
