/**
 * Names by which ports are told apart: the port's own, and "Name (2)", "Name (3)" where others of that name
 * were there before it. A port keeps its name as long as it stays; a name is free again when its port has gone,
 * so a kit that returns under a new id (another socket, another browser session) has its old name.
 * @param ports the ports that are there, in the system's order
 * @param before the names of the last call, by port
 * @example [...namesOfPorts([1, 2], new Map(), () => 'Pad').values()] // => ['Pad', 'Pad (2)']
 */
export function namesOfPorts<P>(
  ports: readonly P[],
  before: ReadonlyMap<P, string>,
  ownName: (port: P) => string,
): Map<P, string> {
  const kept = new Map<P, string>();
  const taken = new Set<string>();
  for (const port of ports) {
    const name = before.get(port);
    if (name === undefined) continue;
    kept.set(port, name);
    taken.add(name);
  }
  const names = new Map<P, string>();
  for (const port of ports) {
    const name = kept.get(port) ?? firstFree(ownName(port), taken);
    taken.add(name);
    names.set(port, name);
  }
  return names;
}

function firstFree(name: string, taken: ReadonlySet<string>): string {
  let free = name;
  for (let count = 2; taken.has(free); count += 1) free = `${name} (${count})`;
  return free;
}
