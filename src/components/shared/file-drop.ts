import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** The whole page as a place to drop files on, while an element is on it. */
export class FileDrop implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #dropped: (files: readonly File[]) => void;
  #over = false;

  constructor(host: ReactiveControllerHost, dropped: (files: readonly File[]) => void) {
    this.#host = host;
    this.#dropped = dropped;
    host.addController(this);
  }

  /** True while files are held over the page. */
  get isOver(): boolean {
    return this.#over;
  }

  readonly #enter = (event: DragEvent): void => {
    if (event.dataTransfer?.types.includes('Files') !== true) return;
    event.preventDefault();
    this.#set(true);
  };

  readonly #leave = (event: DragEvent): void => {
    if (event.relatedTarget === null) this.#set(false);
  };

  readonly #drop = (event: DragEvent): void => {
    this.#set(false);
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    this.#dropped(files);
  };

  #set(over: boolean): void {
    if (over === this.#over) return;
    this.#over = over;
    this.#host.requestUpdate();
  }

  hostConnected(): void {
    window.addEventListener('dragover', this.#enter);
    window.addEventListener('dragleave', this.#leave);
    window.addEventListener('drop', this.#drop);
  }

  hostDisconnected(): void {
    window.removeEventListener('dragover', this.#enter);
    window.removeEventListener('dragleave', this.#leave);
    window.removeEventListener('drop', this.#drop);
  }
}
