import { LitElement } from 'lit';

/** Drawings between two frames: a stroke, the beat that moves on and a tick may come in one. */
const MOST_DRAWN = 3;

/**
 * An element that is drawn at once when something changes, so that a stroke costs its frame no more than the painting;
 * but a few times between two frames at most: what comes faster than that is drawn with the next frame.
 * Elements inside it draw with it.
 */
export class FramePaced extends LitElement {
  #drawn = 0;

  protected override async scheduleUpdate(): Promise<void> {
    if (this.#drawn >= MOST_DRAWN) await nextFrame();
    if (this.#drawn === 0) {
      void nextFrame().then(() => {
        this.#drawn = 0;
      });
    }
    this.#drawn += 1;
    await super.scheduleUpdate();
  }
}

/** A hidden page has no frames, and must still take what it is given. */
function nextFrame(): Promise<unknown> {
  if (document.hidden) return Promise.resolve();
  return new Promise((done) => {
    requestAnimationFrame(done);
  });
}
