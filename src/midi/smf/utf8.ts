/**
 * The text of a string with a byte of UTF-8 in each character, which is how the reader of MIDI files hands texts on; where
 * the bytes are no UTF-8, each is a character of Latin-1.
 * @example textOfBytes('Ã©') // => é
 */
export function textOfBytes(bytes: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(
      Uint8Array.from([...bytes].map((character) => character.charCodeAt(0))),
    );
  } catch {
    return bytes;
  }
}
