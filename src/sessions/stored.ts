import type * as v from 'valibot';

/** What a schema lets through as the code may use it: by its known keys alone, and never written to. */
export type Stored<Schema extends v.GenericSchema> = Known<v.InferOutput<Schema>>;

/** Without the unknown keys that a loose object lets through. They are kept all the same. */
type Known<T> = T extends Plain
  ? T
  : T extends readonly unknown[]
    ? { readonly [Key in keyof T]: Known<T[Key]> }
    : T extends object
      ? { readonly [Key in keyof T as IsUnknownKey<Key, T[Key]> extends true ? never : Key]: Known<T[Key]> }
      : T;

type Plain = string | number | boolean | null | undefined;
type IsUnknownKey<Key, Value> = string extends Key ? (unknown extends Value ? true : false) : false;

/** With all that may be absent. */
type Whole<T> = T extends Plain ? T : { [Key in keyof T]-?: Whole<T[Key]> };
type SameKeys<A, B> = [Whole<A>, Whole<B>] extends [Whole<B>, Whole<A>]
  ? unknown
  : 'the schema has other keys';

/** A schema of a type that stands in another folder: a key more or less in either doesn't compile. */
export const schemaOf =
  <T>() =>
  <Schema extends v.GenericSchema>(
    schema: Schema & v.GenericSchema<unknown, T> & SameKeys<Stored<Schema>, T>,
  ): v.GenericSchema<unknown, T> =>
    schema;
