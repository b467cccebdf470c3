/**
 * Puts the focus on the heading of a screen that has just come, so that it is read, and keys go on from there. Waits until
 * the screen's element is fetched and drawn.
 * @param isStill false once another screen has come meanwhile
 */
export async function focusHeading(screen: Element | null, isStill: () => boolean): Promise<void> {
  if (screen === null) return;
  await customElements.whenDefined(screen.localName);
  if ('updateComplete' in screen) await screen.updateComplete;
  const heading = screen.shadowRoot?.querySelector('h1');
  if (!(heading instanceof HTMLElement) || !isStill()) return;
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
}
