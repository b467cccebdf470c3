import { html, render } from 'lit';
import './components/far-view/far-view';
import { farWindow } from './effects/far-window';
import type { FarState } from './state/far';
import type { FigureChoice } from './state/view';

/** The far view's own composition root: it listens to the player's window, and opens no MIDI, sound or storage. */
document.title = 'Evenhand, far view';
const view = farWindow((state: FarState) => {
  render(
    html`<evenhand-far-view
      .state=${state}
      @mark=${({ detail }: CustomEvent<{ cycle: number; barInCycle: number }>) => view.mark(detail)}
      @figure=${({ detail }: CustomEvent<{ figure: FigureChoice }>) => view.choose(detail.figure)}
    ></evenhand-far-view>`,
    document.body,
  );
});
view.open();
