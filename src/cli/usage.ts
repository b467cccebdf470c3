/** Wrong usage: exit 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
