import { RequestError } from '../api.ts';

/** A file that was left with the server. */
export interface SentFile {
  readonly upload: string;
  readonly name: string;
  readonly bytes: number;
}

/** The sending or the intake was called off by the person. */
export class CalledOff extends Error {}

/** Leaves a file for an intake and tells how much of it is sent, 0..1; `signal` calls it off. */
export function sendFile(
  file: File,
  onShare: (share: number) => void,
  signal: AbortSignal,
): Promise<SentFile> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    const stop = (): void => request.abort();
    signal.addEventListener('abort', stop, { once: true });
    request.open('POST', `/api/uploads?${new URLSearchParams({ name: file.name }).toString()}`);
    request.setRequestHeader('content-type', 'application/octet-stream');
    request.responseType = 'json';
    request.upload.onprogress = (event) => {
      if (event.lengthComputable && event.total > 0) onShare(event.loaded / event.total);
    };
    request.onabort = () => reject(new CalledOff());
    request.onerror = () =>
      reject(
        new RequestError(0, 'no_answer', 'The server does not answer. Check that Sumpwise is still running.'),
      );
    request.onload = () => {
      const body = (request.response ?? {}) as SentFile & { code?: string; detail?: string };
      if (request.status === 200) resolve(body);
      else
        reject(
          new RequestError(
            request.status,
            body.code ?? 'fault',
            body.detail ?? `The server answered with ${request.status}.`,
          ),
        );
    };
    request.onloadend = () => signal.removeEventListener('abort', stop);
    request.send(file);
  });
}
