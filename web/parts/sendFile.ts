import { noAnswer, refusal, type Answer } from '../api.ts';

/** A file that was left with the server. */
export type SentFile = Answer<'upload'>;

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
    request.onerror = () => reject(noAnswer());
    request.onload = () => {
      if (request.status === 200) resolve(request.response as SentFile);
      else reject(refusal(request.status, request.response));
    };
    request.onloadend = () => signal.removeEventListener('abort', stop);
    request.send(file);
  });
}
