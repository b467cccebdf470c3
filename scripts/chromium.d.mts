/** Path of a browser; throws where there is none and none could be installed. */
export function findOrInstallChromium(): string;
