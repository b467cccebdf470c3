const KEPT_MS = 60_000;

/** Gives the player a file to keep. */
export function saveFile(name: string, json: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([json], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), KEPT_MS);
}

/** A name as a file's: letters and figures stay, all else is a hyphen. */
export function fileNameOf(name: string): string {
  return name.replaceAll(/[^\p{L}\p{N}]+/gu, '-').replaceAll(/^-|-$/g, '') || 'phrase';
}
