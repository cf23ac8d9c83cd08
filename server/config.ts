import { join } from 'node:path';

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

/**
 * Paths of one installation.
 * @param ownStore overrides where own records live
 */
export function pathsOf(root: string, built: string, ownStore?: string): Paths {
  const data = join(root, 'var');
  return {
    root,
    web: join(built, 'web'),
    ownStore: ownStore ?? join(data, 'sumpwise.sqlite'),
    demoStore: join(data, 'demo.sqlite'),
    demoFiles: join(root, 'data', 'demo'),
    uploads: join(data, 'uploads'),
  };
}

export const defaultPort = 4180;
export const version = '0.1.0';
