import { html, type TemplateResult } from 'lit';
import type { Sitting } from '../../state/reducer';
import { kitOutputs } from '../shared/outputs';

/** The Rig screen; its elements are fetched when it is first shown. */
export function rigPage(sitting: Sitting): TemplateResult {
  void import('./rig-screen');
  return html`<evenhand-rig-screen
    .rigging=${sitting.rigging}
    .rig=${sitting.rig}
    .midi=${sitting.midi}
    .outputs=${kitOutputs(sitting.midi)}
    .output=${sitting.output}
    .bpm=${sitting.bpm}
    .partialsPerBeat=${sitting.partialsPerBeat}
  ></evenhand-rig-screen>`;
}
