import { html, raw, type Markup } from './markup';

/** How a page of paper looks: black on white, set for A4 and Letter alike, without anything from elsewhere. */
const STYLE = `
  @page { margin: 11mm 15mm; }
  * { box-sizing: border-box; }
  body { max-width: 680px; margin: 24px auto; padding: 0 16px; background: #fff; color: #000; color-scheme: light;
    font: 15px/1.45 system-ui, -apple-system, 'Segoe UI', 'Liberation Sans', sans-serif; font-variant-numeric: tabular-nums; }
  .head { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; gap: 4px 24px;
    border-bottom: 2px solid #000; padding-bottom: 6px; margin-bottom: 14px; }
  h1 { margin: 0; font-size: 24px; line-height: 1.2; overflow-wrap: anywhere; }
  h2 { margin: 18px 0 4px; font-size: 18px; line-height: 1.25; overflow-wrap: anywhere; break-after: avoid; }
  p { margin: 6px 0; overflow-wrap: anywhere; }
  svg { display: block; width: 100%; height: auto; margin: 8px 0; break-inside: avoid; }
  section { break-inside: auto; }
  svg.margin { width: 190px; height: 20px; margin: 0; }
  .sentence { font-size: 17px; font-weight: 600; }
  .quiet { color: #333; font-size: 13px; }
  table { width: 100%; margin: 10px 0; border-collapse: collapse; break-inside: avoid; }
  th, td { padding: 3px 10px 3px 0; border-bottom: 1px solid #999; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
  thead th { overflow-wrap: normal; border-bottom: 1.5px solid #000; font-size: 13px; font-weight: 400; color: #333; }
  tbody th { font-weight: 600; }
  .short { white-space: nowrap; }
  .words { margin: 16px 0 12px; font-size: 21px; line-height: 1.4; white-space: pre-line; break-inside: avoid; }
  .target { margin: 12px 0; padding: 10px 14px; border: 2px solid #000; font-size: 17px; white-space: pre-line; break-inside: avoid; }
  .target b { display: block; font-size: 13px; font-weight: 400; }
  .log tbody th, .log tbody td { height: 9mm; vertical-align: bottom; }
  .caution { margin-top: 16px; padding-top: 6px; border-top: 1px solid #999; font-size: 12px; color: #333; }
  @media print { body { max-width: none; margin: 0; padding: 0; font-size: 13.5px; } .head { margin-bottom: 8px; } svg { max-width: 164mm; margin: 4px 0; } svg.margin { width: 160px; } .words { margin: 8px 0 6px; font-size: 18px; line-height: 1.3; } .target { margin: 8px 0; padding: 7px 12px; font-size: 15px; } h2 { margin-top: 8px; } p { margin: 4px 0; } .sentence { font-size: 15.5px; line-height: 1.35; } table { margin: 4px 0; font-size: 12.5px; } th, td { padding-top: 2px; padding-bottom: 2px; } .caution { margin-top: 8px; font-size: 11px; } }
`;

/** The ordinary caution that every paper carries. */
export const CAUTION =
  'Warm up first. Stop at pain or numbness. Rest as long as you play. Protect your hearing. A clinician’s advice goes first.';

/** A whole page: self-contained, nothing is fetched and nothing runs. */
export function pageOf(title: string, content: Markup): string {
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
        <title>${title}</title>
        <style>
          ${raw(STYLE)}
        </style>
      </head>
      <body>
        ${content}
        <p class="caution">${CAUTION}</p>
      </body>
    </html> `;
  return page.markup;
}
