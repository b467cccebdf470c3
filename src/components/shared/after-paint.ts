/** Does a work once what is drawn now was painted. A page that is not seen paints nothing; then it waits until it is. */
export function afterPaint(work: () => void): void {
  // the frame asked for here is painted when the task after it runs
  requestAnimationFrame(() => setTimeout(work));
}
