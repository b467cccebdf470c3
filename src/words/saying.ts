/** How a text begins: with a capital as a sentence, or as it is after a semicolon. */
export type Beginning = (text: string) => string;

type Sentence = (args: never, begin?: Beginning) => string;
type Table = Readonly<Record<string, Sentence>>;
type Args<Of extends Sentence> = Parameters<Of> extends [] ? object : Parameters<Of>[0];

/** A sentence of a table by its key, with its arguments. */
export type Sayings<Of extends Table> = {
  readonly [Key in keyof Of]: { readonly key: Key; readonly args: Args<Of[Key]> };
}[keyof Of];

/** A table whose sentences all take arguments. */
export type Sentences<Of extends Table> = {
  readonly [Key in keyof Of]: (args: Args<Of[Key]>, begin?: Beginning) => string;
};

/** One saying as text. */
export function said<Of extends Table, Key extends keyof Of>(
  table: Sentences<Of>,
  { key, args }: { readonly key: Key; readonly args: Args<Of[Key]> },
  begin?: Beginning,
): string {
  return table[key](args, begin);
}
