import { FAR_FRAMES_A_SECOND, type FarScene, type ToFar, type ToPlayer } from '../state/far';
import { farFrameOf, farSceneOf } from '../state/selectors/far';
import type { TakeEvent } from '../sessions/take-events';
import type { Effects } from '../state/dispatcher';
import type { Context } from './context';

/** Name of the channel between windows of this page in one browser. */
export const FAR_CHANNEL = 'evenhand-far';
/** Nobody has said "here" for so long: nobody looks, and nothing is sent. */
const NOBODY_MS = 3000;
const HIDDEN_MS = 100;
const EVERY_MS = 1000 / FAR_FRAMES_A_SECOND;

/** Feeds far views in other windows of this browser: ten messages a second at most, each after a frame's own painting. */
export function farFeedEffects({ state, dispatch }: Context, note: (event: TakeEvent) => void) {
  const channel = new BroadcastChannel(FAR_CHANNEL);
  const from = crypto.randomUUID();
  const after = new MessageChannel();
  /** The newest state: what is sent is of it. */
  let now = state();
  let receivedMs = -Infinity;
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
      receivedMs = performance.now();
      if (now.screen !== 'play') return;
      if (data.scene !== sceneNumber) sendScene();
      sendFrame();
      return;
    }
    if (data.to !== from) return;
    const takeId = now.running?.takeId;
    if (data.kind === 'figure') {
      dispatch({ kind: 'figure', figure: data.figure, by: 'teacher' });
    } else if (takeId !== undefined) {
      const { cycle, barInCycle } = data;
      marks = { takeId, count: marks.takeId === takeId ? marks.count + 1 : 1 };
      note({ kind: 'mark', atMs: performance.now(), cycle, barInCycle });
      sendFrame();
    }
  };

  const afterPaint = (): void => {
    // Hidden since then: a frame would not come.
    if (document.hidden) sendFrame();
    else requestAnimationFrame(() => after.port2.postMessage(null));
  };

  return {
    changed(state) {
      now = state;
      if (isDue || performance.now() - receivedMs > NOBODY_MS || now.screen !== 'play') return;
      isDue = true;
      const waitMs = sentMs + EVERY_MS - performance.now();
      // After a frame is painted: the player's own picture goes first. A hidden page has no frames.
      if (document.hidden) setTimeout(sendFrame, HIDDEN_MS);
      else if (waitMs > 0) setTimeout(afterPaint, waitMs);
      else afterPaint();
    },
  } satisfies Effects;
}
