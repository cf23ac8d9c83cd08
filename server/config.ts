import { join, resolve } from 'node:path';

/** Where the program and its data are. */
export interface Paths {
  /** the repository */
  readonly root: string;
  /** the built pages */
  readonly web: string;
  readonly ownStore: string;
  readonly demoStore: string;
  readonly demoFiles: string;
  readonly uploads: string;
}

/** A store's file by its whole path, so that it is the same store from every folder; an address stays as it is. */
const wholePath = (store: string): string =>
  /^(postgres(ql)?:|:memory:)/.test(store) ? store : resolve(store);

/**
 * Paths of one installation.
 * @param ownStore overrides where own records live
 */
export function pathsOf(root: string, built: string, ownStore?: string): Paths {
  const data = join(root, 'var');
  return {
    root,
    web: join(built, 'web'),
    ownStore: ownStore === undefined ? join(data, 'sumpwise.sqlite') : wholePath(ownStore),
    demoStore: join(data, 'demo.sqlite'),
    demoFiles: join(root, 'data', 'demo'),
    uploads: join(data, 'uploads'),
  };
}

export const defaultPort = 4180;
export const version = '0.1.0';
