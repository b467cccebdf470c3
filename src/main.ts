import { render } from 'lit';
import { audioClick } from './click/audio-click';
import { audioPlayer } from './click/hear-audio';
import { audioOut } from './click/web-audio';
import { page } from './components/page';
import { ACTION } from './components/shared/events';
import { bundledTakes } from './effects/bundled';
import type { Context } from './effects/context';
import { libraryNews } from './effects/other-windows';
import { pageEffects } from './effects/page';
import { InputError } from './errors';
import { midiGateway } from './midi/web-midi';
import { openStore, type BrowserStore } from './sessions/browser-store';
import { tellingStore } from './sessions/telling-store';
import { memoryStore } from './sessions/memory-store';
import { dispatcher } from './state/dispatcher';
import { screenNamed } from './state/screens';
import { firstState, type State } from './state/state';

/** The composition root: the state with its dispatcher, what it is seen in, and what actions set off in the world. */
const root = document.body;
const { state, dispatch, listen } = dispatcher({
  ...firstState,
  bundled: bundledTakes,
  screen: screenNamed(location.hash.slice(1)) ?? firstState.screen,
  // The library is not open yet.
  rigging: { ...firstState.rigging, waiting: [] },
});

let store: BrowserStore = memoryStore();
const trouble = (error: unknown): void => {
  dispatch({ kind: 'problem', problem: error instanceof Error ? error.message : String(error) });
  if (!(error instanceof InputError)) throw error;
};
const context: Context = {
  state,
  dispatch,
  store: () => store,
  trouble,
  attempt: (work) => {
    work().catch(trouble);
  },
};

const news = libraryNews();
const out = audioOut();
const effects = pageEffects(context, {
  midi: midiGateway(),
  news,
  out,
  sound: { click: audioClick(out), caller: audioPlayer(out) },
});

function show(now: State): void {
  render(page(now), root);
}
listen([{ changed: show }, ...effects.all]);
root.addEventListener(ACTION, ({ detail }) => dispatch(detail));
show(state());
effects.open(async (deleted) => {
  store = tellingStore(await openStore(deleted), news.tell);
});
