import { css, html, svg, type TemplateResult } from 'lit';
import type { VariationBand } from '../../grading/types';

export const verdictStyles = css`
  .verdict {
    white-space: nowrap;
  }
  .verdict svg {
    width: 15px;
    height: 15px;
    margin-right: 9px;
    vertical-align: -2px;
    fill: none;
    stroke: currentColor;
    stroke-width: 1.8;
  }
  .verdict .full {
    fill: currentColor;
    stroke: none;
  }
`;

/** A verdict: full square *holds*, half square *close*, empty square *not yet*, dotted square for none; and its word. */
export function verdict(band: VariationBand): TemplateResult {
  return html`<span class="verdict"
    ><svg viewBox="0 0 15 15" aria-hidden="true">${square(band)}</svg>${band}</span
  >`;
}

function square(band: VariationBand) {
  const box = svg`<rect x="1.5" y="1.5" width="12" height="12" />`;
  switch (band) {
    case 'holds':
      return svg`<rect class="full" x="1" y="1" width="13" height="13" />`;
    case 'close':
      return svg`${box}<rect class="full" x="1.5" y="7.5" width="12" height="6" />`;
    case 'not yet':
      return box;
    case 'too few bars':
    case 'not played':
    case 'too few strokes':
    case 'not measured':
      return svg`<rect x="1.5" y="1.5" width="12" height="12" stroke-dasharray="2 2" />`;
  }
}
