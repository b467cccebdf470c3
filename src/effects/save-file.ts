const KEPT_MS = 60_000;

/** Gives the player a file to keep; a text is JSON. */
export function saveFile(name: string, content: string | Blob): void {
  const link = document.createElement('a');
  const blob = typeof content === 'string' ? new Blob([content], { type: 'application/json' }) : content;
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), KEPT_MS);
}
