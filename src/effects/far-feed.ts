import { farFrameOf, farSceneOf } from '../state/far-picture';
import { FAR_FRAMES_A_SECOND, type FarScene, type ToFar, type ToPlayer } from '../state/far';
import type { Desk } from './page-effects';
import type { Playing } from './running-take';

/** Name of the channel between windows of this page in one browser. */
export const FAR_CHANNEL = 'evenhand-far';
/** Nobody has said "here" for so long: nobody looks, and nothing is sent. */
const NOBODY_MS = 3000;
const HIDDEN_MS = 100;
const EVERY_MS = 1000 / FAR_FRAMES_A_SECOND;

/** Feeds far views in other windows of this browser: ten messages a second at most, each after a frame's own painting. */
export interface FarFeed {
  /** The sitting has changed. */
  changed(): void;
}

export function farFeed({ sitting, say }: Desk, play: Playing): FarFeed {
  const channel = new BroadcastChannel(FAR_CHANNEL);
  const from = crypto.randomUUID();
  const after = new MessageChannel();
  let heardMs = -Infinity;
  let isDue = false;
  let sentMs = -Infinity;
  let scene: FarScene | null = null;
  let sceneNumber = 0;
  let marks = { takeId: '', count: 0 };

  const send = (message: ToFar): void => channel.postMessage(message);
  after.port1.onmessage = sendFrame;

  function sendScene(): void {
    if (scene !== null) send({ kind: 'scene', from, scene: sceneNumber, of: scene });
  }

  function sendFrame(): void {
    isDue = false;
    sentMs = performance.now();
    const now = sitting();
    const next = farSceneOf(now);
    if (next !== scene) {
      scene = next;
      sceneNumber += 1;
      sendScene();
    }
    const count = marks.takeId === now.running?.takeId ? marks.count : 0;
    send({ kind: 'frame', from, frame: farFrameOf(now, sceneNumber, count) });
  }

  channel.onmessage = ({ data }: MessageEvent<ToPlayer>) => {
    if (data.kind === 'here') {
      heardMs = performance.now();
      if (sitting().screen !== 'play') return;
      if (data.scene !== sceneNumber) sendScene();
      sendFrame();
      return;
    }
    if (data.to !== from) return;
    const takeId = sitting().running?.takeId;
    if (data.kind === 'figure') {
      say({ kind: 'figure', figure: data.figure, by: 'teacher' });
      play.note({ kind: 'figure', atMs: performance.now(), figure: data.figure, by: 'teacher' });
    } else if (takeId !== undefined) {
      const { cycle, barInCycle } = data;
      marks = { takeId, count: marks.takeId === takeId ? marks.count + 1 : 1 };
      play.note({ kind: 'mark', atMs: performance.now(), cycle, barInCycle });
      sendFrame();
    }
  };

  const afterPaint = (): void => {
    // Hidden since then: a frame would not come.
    if (document.hidden) sendFrame();
    else requestAnimationFrame(() => after.port2.postMessage(null));
  };

  return {
    changed() {
      if (isDue || performance.now() - heardMs > NOBODY_MS || sitting().screen !== 'play') return;
      isDue = true;
      const waitMs = sentMs + EVERY_MS - performance.now();
      // After a frame is painted: the player's own picture goes first. A hidden page has no frames.
      if (document.hidden) setTimeout(sendFrame, HIDDEN_MS);
      else if (waitMs > 0) setTimeout(afterPaint, waitMs);
      else afterPaint();
    },
  };
}
