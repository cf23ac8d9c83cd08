import { maxNameBytes } from '../files/uploads.ts';
import { Problem } from './problem.ts';

/** The refusal of a file by its name. */
export const badName = (name: string): Problem =>
  new Problem(
    400,
    'bad_name',
    `name: at most ${maxNameBytes} bytes without zero bytes are needed, got ${Buffer.byteLength(name)} bytes. Rename the file and send it again.`,
  );
