import { html, type TemplateResult } from 'lit';
import type { State } from '../../state/state';
import { kitOutputs } from '../shared/outputs';

/** The Rig screen; its elements are fetched when it is first shown. */
export function rigPage(state: State): TemplateResult {
  void import('./rig-screen');
  return html`<evenhand-rig-screen
    .rigging=${state.rigging}
    .rig=${state.rig}
    .midi=${state.midi}
    .outputs=${kitOutputs(state.midi)}
    .output=${state.output}
    .bpm=${state.bpm}
    .partialsPerBeat=${state.partialsPerBeat}
  ></evenhand-rig-screen>`;
}
