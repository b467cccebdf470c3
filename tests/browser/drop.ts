import type { Page } from 'playwright';

/** Drops files on the page, as from a folder. */
export async function drop(
  page: Page,
  files: readonly { readonly name: string; readonly text: string }[],
): Promise<void> {
  const data = await page.evaluateHandle((all) => {
    const transfer = new DataTransfer();
    for (const { name, text } of all) {
      transfer.items.add(new File([text], name, { type: 'application/json' }));
    }
    return transfer;
  }, files);
  await page.dispatchEvent('evenhand-app', 'drop', { dataTransfer: data });
}
