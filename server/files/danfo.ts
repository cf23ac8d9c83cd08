type Danfo = typeof import('danfojs');

let loaded: Promise<Danfo> | null = null;

/** Loads danfo.js when it is first wanted; it takes a second and prints a banner, which is kept off the output. */
export function danfo(): Promise<Danfo> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<Danfo> {
  const { log, warn, info } = console;
  const silent = (): void => undefined;
  Object.assign(console, { log: silent, warn: silent, info: silent });
  try {
    const library = (await import('danfojs')) as Danfo & { default?: Danfo };
    return library.default ?? library;
  } finally {
    Object.assign(console, { log, warn, info });
  }
}
