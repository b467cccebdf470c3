/** How a browser answers a page that asks for MIDI. */
export type FakeMidiMode = 'granted' | 'denied' | 'unsupported' | 'insecure' | 'no-driver';

/** A virtual kit or module: the cable, and what the kit does with it. */
export interface FakeDevice {
  readonly id: string;
  readonly name: string;
  plug(): void;
  unplug(): void;
  /** True: another program holds the port, so it cannot be opened. */
  busy: boolean;
  /** Bytes as they come out of the cable; `timeStamp` in ms, now where left out. Lost while unplugged. */
  send(bytes: readonly number[], timeStamp?: number): void;
  /** What the page sent to it, in order, while it was plugged in. */
  readonly sent: readonly { readonly bytes: readonly number[]; readonly timestamp: number }[];
}

export interface FakeMidi {
  addInput(name: string, options?: FakeOptions): FakeDevice;
  addOutput(name: string, options?: FakeOptions): FakeDevice;
  setMode(mode: FakeMidiMode): void;
  /** What every call of requestMIDIAccess asked for. */
  readonly requests: readonly unknown[];
}

export interface FakeOptions {
  readonly id?: string;
  readonly busy?: boolean;
}

interface FakeTarget {
  navigator: object;
  fakeMidi?: FakeMidi;
}

/**
 * A virtual `navigator.requestMIDIAccess` for a page or for Node; it is also put on `target.fakeMidi`.
 * Self-contained, so that `` page.addInitScript(`(${installFakeMidi.toString()})(window)`) `` works.
 *
 * As browsers do: opening a port is asynchronous; an open port that is unplugged is *pending* and open again
 * when it returns, as the same object; unplugged ports are not listed; statechange reaches the port, then the
 * access; every call gives a new access with new port objects. Real virtual ports need a sequencer of the
 * system, which test machines lack.
 */
export function installFakeMidi(target: FakeTarget): FakeMidi {
  type Connection = 'open' | 'closed' | 'pending';
  interface Device extends FakeDevice {
    type: 'input' | 'output';
    connected: boolean;
    sent: { bytes: number[]; timestamp: number }[];
    ports: Set<Port>;
  }
  interface Port extends EventTarget {
    [key: string]: unknown;
    changed(): void;
    deliver(bytes: readonly number[], timeStamp: number): void;
  }

  const devices: Device[] = [];
  const accesses: { appeared(device: Device): void }[] = [];
  const requests: unknown[] = [];
  let mode: FakeMidiMode = 'granted';

  const failure = (name: string, message: string): Error => new DOMException(message, name);

  function stateChange(port: Port): Event {
    const event = new Event('statechange');
    Object.defineProperty(event, 'port', { value: port });
    return event;
  }

  function fire(to: EventTarget, event: Event): void {
    const handler = (to as unknown as Record<string, unknown>)['on' + event.type];
    if (typeof handler === 'function') (handler as (event: Event) => void).call(to, event);
    to.dispatchEvent(event);
  }

  function portOf(device: Device, access: EventTarget): Port {
    let connection: Connection = 'closed';
    const port = new EventTarget() as Port;
    const announce = (): void => {
      fire(port, stateChange(port));
      fire(access, stateChange(port));
    };
    const open = async (): Promise<Port> => {
      await Promise.resolve();
      if (device.busy) throw failure('InvalidAccessError', 'The port is in use.');
      if (connection === 'closed') {
        connection = device.connected ? 'open' : 'pending';
        announce();
      }
      return port;
    };
    const close = async (): Promise<Port> => {
      await Promise.resolve();
      if (connection !== 'closed') {
        connection = 'closed';
        announce();
      }
      return port;
    };
    const changed = (): void => {
      if (!device.connected && connection === 'open') connection = 'pending';
      else if (device.connected && connection === 'pending') connection = 'open';
      announce();
    };
    const deliver = (bytes: readonly number[], timeStamp: number): void => {
      if (connection !== 'open') return;
      const event = new Event('midimessage');
      Object.defineProperty(event, 'data', { value: new Uint8Array(bytes) });
      Object.defineProperty(event, 'timeStamp', { value: timeStamp });
      fire(port, event);
    };
    const send = (bytes: Iterable<number>, timestamp = 0): void => {
      if (device.connected) device.sent.push({ bytes: [...bytes], timestamp });
    };
    let onmidimessage: unknown = null;
    Object.defineProperties(port, {
      id: { value: device.id },
      name: { value: device.name },
      manufacturer: { value: 'Virtual' },
      version: { value: '1' },
      type: { value: device.type },
      state: { get: () => (device.connected ? 'connected' : 'disconnected') },
      connection: { get: () => connection },
      onmidimessage: {
        get: () => onmidimessage,
        set: (handler: unknown) => {
          onmidimessage = handler;
          // Listening opens the port, as the standard says; a port in use stays closed.
          if (handler !== null) open().catch(() => undefined);
        },
      },
    });
    Object.assign(port, { onstatechange: null, open, close, send, changed, deliver });
    device.ports.add(port);
    return port;
  }

  function newAccess(): EventTarget {
    const access = new EventTarget();
    const all = new Map<Device, Port>();
    const listed = (type: Device['type']): Map<string, Port> =>
      new Map(
        [...all]
          .filter(([device]) => device.type === type && device.connected)
          .map(([device, port]) => [device.id, port]),
      );
    for (const device of devices) all.set(device, portOf(device, access));
    Object.defineProperties(access, {
      inputs: { get: () => listed('input') },
      outputs: { get: () => listed('output') },
    });
    Object.assign(access, { onstatechange: null, sysexEnabled: false });
    accesses.push({
      appeared(device) {
        const port = portOf(device, access);
        all.set(device, port);
        port.changed();
      },
    });
    return access;
  }

  function addDevice(type: Device['type'], name: string, options: FakeOptions = {}): FakeDevice {
    const device: Device = {
      id: options.id ?? `${type}-${devices.length + 1}`,
      name,
      type,
      busy: options.busy ?? false,
      connected: true,
      sent: [],
      ports: new Set(),
      plug() {
        if (device.connected) return;
        device.connected = true;
        device.ports.forEach((port) => {
          port.changed();
        });
      },
      unplug() {
        if (!device.connected) return;
        device.connected = false;
        device.ports.forEach((port) => {
          port.changed();
        });
      },
      send(bytes, timeStamp = performance.now()) {
        if (!device.connected) return;
        device.ports.forEach((port) => {
          port.deliver(bytes, timeStamp);
        });
      },
    };
    devices.push(device);
    accesses.forEach((access) => {
      access.appeared(device);
    });
    return device;
  }

  async function requestMIDIAccess(options: unknown): Promise<EventTarget> {
    requests.push(options);
    await Promise.resolve();
    if (mode === 'denied')
      throw failure('NotAllowedError', 'Permission to use Web MIDI API was not granted.');
    if (mode === 'no-driver') throw failure('InvalidStateError', 'Platform dependent initialization failed.');
    return newAccess();
  }

  function setMode(next: FakeMidiMode): void {
    mode = next;
    const gone = mode === 'unsupported' || mode === 'insecure';
    Object.defineProperty(target.navigator, 'requestMIDIAccess', {
      value: gone ? undefined : requestMIDIAccess,
      configurable: true,
      writable: true,
    });
    Object.defineProperty(target, 'isSecureContext', { value: mode !== 'insecure', configurable: true });
  }

  const midi: FakeMidi = {
    addInput: (name, options) => addDevice('input', name, options),
    addOutput: (name, options) => addDevice('output', name, options),
    setMode,
    requests,
  };
  setMode('granted');
  target.fakeMidi = midi;
  return midi;
}
