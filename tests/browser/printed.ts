import { mkdirSync, writeFileSync } from 'node:fs';
import type { Page } from 'playwright';

/** Pages that a paper takes on A4 and on Letter, as Chromium prints it. The PDFs lie in .pictures/ to be looked at. */
export async function pagesPrinted(beside: Page, paper: string, name: string): Promise<readonly number[]> {
  mkdirSync('.pictures', { recursive: true });
  const sheet = await beside.context().newPage();
  await sheet.setContent(paper);
  const pages: number[] = [];
  for (const format of ['A4', 'Letter'] as const) {
    const pdf = await sheet.pdf({ format, preferCSSPageSize: false });
    writeFileSync(`.pictures/${name}-${format}.pdf`, pdf);
    pages.push(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0);
  }
  await sheet.close();
  return pages;
}

/** The paper in the page's own frame. */
export const paperShown = (page: Page): Promise<string> =>
  page.locator('iframe').evaluate((frame) => (frame as HTMLIFrameElement).srcdoc);
