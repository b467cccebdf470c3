/** Opens the page, or with `?far` the far view: a window that needs neither MIDI nor storage. */
const isFar = new URLSearchParams(location.search).has('far');
void (isFar ? import('./far') : import('./main'));
