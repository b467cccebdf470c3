import { LitElement } from 'lit';

/**
 * An element that draws at most once a frame, however often its properties change: what comes in before a frame is
 * painted in that frame. Elements inside it draw with it, in the same frame.
 */
export class FramePaced extends LitElement {
  protected override async scheduleUpdate(): Promise<void> {
    if (this.hasUpdated) await nextFrame();
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
