/**
 * A function that gives the same answer, the very object, while it is asked the same: so that nothing is drawn anew
 * for a picture that did not change. It remembers the last question only.
 */
export function remembered<Asked extends readonly unknown[], Answer>(
  work: (...asked: Asked) => Answer,
): (...asked: Asked) => Answer {
  let last: { readonly asked: Asked; readonly answer: Answer } | null = null;
  return (...asked) => {
    if (last === null || asked.some((one, index) => one !== last?.asked[index])) {
      last = { asked, answer: work(...asked) };
    }
    return last.answer;
  };
}

/** The same for work that can wait: the answer is a function, the very same while it is asked the same, that works when it is first called. */
export function deferred<Asked extends readonly unknown[], Answer>(
  work: (...asked: Asked) => Answer,
): (...asked: Asked) => () => Answer {
  return remembered((...asked: Asked) => {
    let made: { readonly answer: Answer } | null = null;
    return () => (made ??= { answer: work(...asked) }).answer;
  });
}
