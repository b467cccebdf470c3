import type { FigureChoice } from '../state/view';
import { type FarNews, farNext, type FarState, noFarState, type ToFar, type ToPlayer } from '../state/far';
import { FAR_CHANNEL } from './far-feed';

const HERE_MS = 1000;

/** The far view's end of the channel. There is no connection to lose: whichever window speaks next is heard. */
interface FarWindow {
  open(): void;
  /** The bar that is on the screen. */
  mark(bar: { readonly cycle: number; readonly barInCycle: number }): void;
  choose(figure: FigureChoice): void;
}

/** @param show called with each state, once a frame at most */
export function farWindow(show: (state: FarState) => void): FarWindow {
  const channel = new BroadcastChannel(FAR_CHANNEL);
  const send = (message: ToPlayer): void => channel.postMessage(message);
  let state = noFarState;
  let isDue = false;

  function next(news: FarNews): void {
    state = farNext(state, news);
    if (isDue) return;
    isDue = true;
    requestAnimationFrame(() => {
      isDue = false;
      show(state);
    });
  }

  /** Asks for the scene where the one at hand is not that of the frames. */
  function here(): void {
    const { scene, frame } = state;
    send({ kind: 'here', scene: scene?.number === frame?.scene ? (scene?.number ?? null) : null });
  }

  return {
    open() {
      channel.onmessage = ({ data }: MessageEvent<ToFar>) => {
        const isOld = data.kind === 'frame' && data.frame.scene !== state.scene?.number;
        next({ kind: 'message', atMs: performance.now(), message: data });
        if (isOld && data.from === state.from) here();
      };
      setInterval(() => {
        next({ kind: 'tick', atMs: performance.now() });
        here();
      }, HERE_MS);
      here();
      show(state);
    },
    mark: (bar) => state.from !== null && send({ kind: 'mark', to: state.from, ...bar }),
    choose: (figure) => state.from !== null && send({ kind: 'figure', to: state.from, figure }),
  };
}
